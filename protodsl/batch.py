"""Many jobs of one kind over several processes; what a killed process took with it is done again."""

from __future__ import annotations

import gc
import multiprocessing
import os
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from typing import Any, Generic, TypeVar, cast

J = TypeVar("J")
R = TypeVar("R")

# Jobs that go to a process together.
_CHUNK = 5
# How often a job may take its process with it, alone, before it is given up.
_LIVES = 2
# Fewer jobs are done sooner than processes are started.
_FEW = 4


@dataclass(frozen=True, slots=True)
class Lost(Generic[J]):
    """A job that could not be done: every process that took it died, or (`fault`) the program failed on it."""

    job: J
    fault: str = ""


def in_parallel(jobs: Sequence[J], work: Callable[[J], R], processes: int | None = None) -> Iterator[R | Lost[J]]:
    """What `work` makes of each job, as it is done; in this process where there is one processor, or little to do.

    `work` is called in copies of this process, so all that it has at hand by now is at hand there too. What it returns
    must be something that can be pickled, and so must the jobs.
    """
    count = min(processes or available(), -(-len(jobs) // _CHUNK))
    if count < 2 or len(jobs) < _FEW or "fork" not in multiprocessing.get_all_start_methods():
        yield from (_one(work, job) for job in jobs)
        return
    gc.collect()
    # Else the first collection in each copy would touch, and so double, all memory that is shared.
    gc.freeze()
    try:
        yield from _Pools(work, count).run(deque(jobs))
    finally:
        gc.unfreeze()


def available() -> int:
    """The processors that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


class _Pools(Generic[J, R]):
    """One pool after the other, as long as there are jobs left."""

    def __init__(self, work: Callable[[J], R], count: int) -> None:
        self._work = work
        self._count = count

    def run(self, waiting: deque[J]) -> Iterator[R | Lost[J]]:
        while waiting:
            suspects: list[J] = []
            yield from self._until_broken(waiting, suspects)
            for job in suspects:
                yield self._alone(job)

    def _until_broken(self, waiting: deque[J], suspects: list[J]) -> Iterator[R | Lost[J]]:
        """Results until there are no jobs left or a process dies; then `suspects` are those that were being done."""
        running: dict[Future[Any], list[J]] = {}
        broken = False
        with self._pool(self._count) as pool:
            while (waiting or running) and not broken:
                while waiting and len(running) < 2 * self._count and not broken:
                    chunk = [waiting.popleft() for _ in range(min(_CHUNK, len(waiting)))]
                    try:
                        running[pool.submit(_all, chunk)] = chunk
                    except BrokenProcessPool:
                        waiting.extendleft(reversed(chunk))
                        broken = True
                for one in wait(running, return_when=FIRST_COMPLETED).done:
                    chunk = running.pop(one)
                    try:
                        yield from one.result()
                    except BrokenProcessPool:
                        suspects.extend(chunk)
                        broken = True
            # What was done by now but not handed out is done again: that costs little, and it happens seldom.
            suspects.extend(job for chunk in running.values() for job in chunk)

    def _alone(self, job: J) -> R | Lost[J]:
        """A job in a process of its own, so that no other goes down with it."""
        for _ in range(_LIVES):
            with self._pool(1) as pool:
                try:
                    return cast("R | Lost[J]", pool.submit(_all, [job]).result()[0])
                except BrokenProcessPool:
                    continue
        return Lost(job)

    def _pool(self, count: int) -> ProcessPoolExecutor:
        context = multiprocessing.get_context("fork")
        begin: Any = _begin
        return ProcessPoolExecutor(count, mp_context=context, initializer=begin, initargs=(self._work,))


# Set in each process once, when it begins: a function cannot be sent to it later if it holds what cannot be pickled.
_work: list[Callable[[Any], Any]] = []


def _begin(work: Callable[[Any], Any]) -> None:
    _work[:] = [work]
    # Nearly nothing that a job makes goes round in a circle; what does is collected between the chunks.
    gc.disable()


def _all(jobs: list[Any]) -> list[Any]:
    done = [_one(_work[0], job) for job in jobs]
    # The youngest alone: what a chunk leaves behind is among them, and all that is kept is not looked through again.
    gc.collect(0)
    return done


def _one(work: Callable[[J], R], job: J) -> R | Lost[J]:
    """A fault of the program on one job does not stop the others."""
    try:
        return work(job)
    except Exception as fault:
        return Lost(job, type(fault).__name__)
