"""From page to a word-processing document (ISO/IEC 29500-1): the only place for python-docx and for dots."""
