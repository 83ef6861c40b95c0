"""What the compiler has to say about a text: codes, places, sentences and their renderers."""
