import os
import signal

import pytest

from layout import interrupts

pytestmark = pytest.mark.usefixtures("listening")


def send(number):
    os.kill(os.getpid(), number)


@pytest.mark.parametrize("number", interrupts.ASKING)
def test_a_signal_is_told_as_an_interrupt(number):
    with pytest.raises(KeyboardInterrupt):
        send(number)


@interrupts.held()
def nested(seen):
    with interrupts.held():
        send(signal.SIGINT)
        seen.append("inner")
    send(signal.SIGTERM)
    seen.append("outer")


@interrupts.held()
def failing():
    send(signal.SIGINT)
    raise ValueError("full")


@interrupts.held()
def quiet():
    pass


def test_signals_wait_for_the_end_of_the_outermost_block():
    seen = []
    with pytest.raises(KeyboardInterrupt):
        nested(seen)
    assert seen == ["inner", "outer"]
    quiet()


def test_an_exception_of_the_block_goes_first_and_the_signal_is_not_lost():
    with pytest.raises(ValueError, match="full"):
        failing()
    with pytest.raises(KeyboardInterrupt):
        quiet()
