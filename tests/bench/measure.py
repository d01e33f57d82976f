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
    """Rows of least, median and most."""

    def __init__(self):
        print(f"{'':58} {'least':>9} {'median':>9} {'most':>9}")

    def row(self, name, values, digits=1):
        values = list(values)
        least, middle, most = min(values), statistics.median(values), max(values)
        print(f"{name:58} {least:9.{digits}f} {middle:9.{digits}f} {most:9.{digits}f}", flush=True)
