"""How much hypothesis tries: `REGLET_TESTS=thorough` for all it can, `brief` for a glance.

The everyday run draws other examples each time. The other two draw the same, so that they say the
same twice. No test has a deadline: what is slow is for benchmarks to tell.
"""

import os

from hypothesis import settings

settings.register_profile("quick", max_examples=50, deadline=None)
settings.register_profile(
    "thorough", max_examples=150, deadline=None, derandomize=True, print_blob=True
)
settings.register_profile("brief", settings.get_profile("thorough"), max_examples=10)
settings.load_profile(os.environ.get("REGLET_TESTS", "quick"))
