"""What several tests of `layout` ask for by name."""

import signal
from collections.abc import Iterator

import pytest

from layout import interrupts


@pytest.fixture
def listening() -> Iterator[None]:
    """Signals that ask a run to end are heard as in a run; afterwards nothing is left of it."""
    earlier = {number: signal.getsignal(number) for number in interrupts.ASKING}
    interrupts.listen()
    yield
    interrupts.listen()  # forgets what it was asked
    for number, handler in earlier.items():
        signal.signal(number, handler)
