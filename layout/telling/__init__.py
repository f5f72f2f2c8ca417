"""A walk in words: steps become sentences in the language of the job."""
