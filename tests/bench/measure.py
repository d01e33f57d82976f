"""Measures whole processes: processor time and peak memory as the system counts them, and time on the wall."""

import os
import statistics
import subprocess
import time
from dataclasses import dataclass


@dataclass
class Run:
    """One finished process."""

    cpu: float  # seconds of processor, user and system
    wall: float  # seconds
    peak: float  # megabytes, at least what this Python takes itself


def run(command, accepted=(0,)):
    """Runs a command to its end; what it says is thrown away."""
    begun = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    wall = time.perf_counter() - begun
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in accepted:
        raise SystemExit(f"{' '.join(map(str, command))} ended with {process.returncode}")
    return Run(used.ru_utime + used.ru_stime, wall, used.ru_maxrss / 1024)


def in_turn(commands, runs):
    """Runs commands in turn, A B C A B C …, so that all meet the same moods of the machine."""
    for command in commands:
        run(command)
    found = [[] for _ in commands]
    for _ in range(runs):
        for kept, command in zip(found, commands):
            kept.append(run(command))
    return found


class Table:
    """Rows of least, median and most for each program."""

    def __init__(self, programs):
        print(f"{'':58}", *(f"{name:>29}" for name in programs))
        print(f"{'':58}", *(f"{'least':>9} {'median':>9} {'most':>9}" for _ in programs))

    def row(self, name, found, digits=1):
        """Adds a row: a list of values for each program."""
        columns = (f"{min(v):9.{digits}f} {statistics.median(v):9.{digits}f} {max(v):9.{digits}f}" for v in found)
        print(f"{name:58}", *columns, flush=True)
