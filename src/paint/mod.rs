//! Paint: a display list becomes a file. Only this stage names printpdf and lopdf.
