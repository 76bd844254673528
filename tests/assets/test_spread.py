"""Work over several processes comes to the same as over one, in the same order, whatever happens to a worker."""

from __future__ import annotations

import os
import signal
import time

import pytest

from saponary.assets.spread import FEW, cores, spread

COUNT = 3 * FEW


@pytest.mark.parametrize("workers", [1, 2, 5])
def test_the_order_is_that_of_the_pieces(workers: int) -> None:
    told: list[tuple[int, int]] = []
    base = {"held": 7}
    made = spread(COUNT, lambda n: n * base["held"], workers, lambda done, of: told.append((done, of)))
    assert made == [7 * n for n in range(COUNT)]
    assert told == [(n + 1, COUNT) for n in range(COUNT)]


def test_several_pieces_are_done_by_copies_of_this_process_and_few_by_itself() -> None:
    here = os.getpid()
    assert here not in spread(COUNT, lambda n: os.getpid(), 2)
    assert set(spread(FEW - 1, lambda n: os.getpid(), 2)) == {here}
    assert here not in spread(2, lambda n: os.getpid(), 2, few=2)
    assert set(spread(COUNT, lambda n: os.getpid(), 1)) == {here}
    assert spread(0, lambda n: os.getpid()) == []


def test_a_fault_in_a_piece_is_raised_here_as_it_is() -> None:
    class Fault(Exception):
        """One that cannot be handed from process to process."""

        def __init__(self, *, about: str) -> None:
            super().__init__(about)
            self.about = about

    def work(number: int) -> int:
        if number == 5:
            raise Fault(about="five")
        return number

    with pytest.raises(Fault) as raised:
        spread(COUNT, work, 2)
    assert raised.value.about == "five"
    assert spread(COUNT, lambda n: n, 2) == list(range(COUNT)), "and the next work is done"


def test_the_pieces_of_a_worker_that_is_ended_are_done_here() -> None:
    here = os.getpid()

    def work(number: int) -> int:
        if number == 5 and os.getpid() != here:
            os.kill(os.getpid(), signal.SIGKILL)
        return number

    assert spread(COUNT, work, 2) == list(range(COUNT))


def test_there_is_a_processor() -> None:
    assert cores() >= 1


def test_workers_end_with_the_process_that_made_them_however_it_ends() -> None:
    told, tell = os.pipe()

    def piece(number: int) -> int:
        os.write(tell, os.getpid().to_bytes(4, "big"))
        time.sleep(60)
        return number

    maker = os.fork()
    if maker == 0:
        spread(COUNT, piece, 2)
        os._exit(0)
    os.close(tell)
    workers = [int.from_bytes(os.read(told, 4), "big") for _ in range(2)]
    os.kill(maker, signal.SIGKILL)
    os.waitpid(maker, 0)
    # The end of the pipe is reached once nobody is left who could write to it.
    assert os.read(told, 4) == b"", workers
    os.close(told)
