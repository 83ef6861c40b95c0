"""Catalogues of what an author wrote: extracted, merged with what is translated, and judged before it is printed."""
