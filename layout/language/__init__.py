"""The words of each language, and what is put together from them."""
