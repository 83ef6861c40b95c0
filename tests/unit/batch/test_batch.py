"""Many jobs over several processes: each done once, whatever dies on the way."""

import os
import signal
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from protodsl.batch import Lost, in_parallel


def counting(folder: Path, then: Callable[[int], None] = lambda job: None) -> Callable[[int], int]:
    """Work that leaves a mark in the folder for each time it is begun."""

    def work(job: int) -> int:
        with (folder / str(job)).open("a") as out:
            out.write(f"{os.getpid()}\n")
        then(job)
        return job * job

    return work


def test_every_job_is_done_once_in_more_than_one_process(tmp_path: Path) -> None:
    def slow(job: int) -> None:
        time.sleep(0.01)

    results = list(in_parallel(range(60), counting(tmp_path, slow), 2))
    assert sorted(results) == [job * job for job in range(60)]  # type: ignore[type-var]
    marks = [path.read_text().split() for path in tmp_path.iterdir()]
    assert [len(one) for one in marks] == [1] * 60
    pids = {one[0] for one in marks}
    assert len(pids) == 2 and str(os.getpid()) not in pids


@pytest.mark.parametrize("count", [0, 1, 3])
def test_a_few_jobs_need_no_process(tmp_path: Path, count: int) -> None:
    assert list(in_parallel(range(count), counting(tmp_path), 2)) == [job * job for job in range(count)]
    assert {path.read_text() for path in tmp_path.iterdir()} <= {f"{os.getpid()}\n"}


def test_a_killed_process_costs_nothing(tmp_path: Path) -> None:
    """One process is killed in the midst of a job, once: that job and its fellows are done again, no other is lost."""

    def once(job: int) -> None:
        if job in (7, 33) and len((tmp_path / str(job)).read_text().split()) == 1:
            os.kill(os.getpid(), signal.SIGKILL)

    results = list(in_parallel(range(60), counting(tmp_path, once), 2))
    assert sorted(results) == [job * job for job in range(60)]  # type: ignore[type-var]


def test_a_job_that_kills_every_process_is_given_up_and_no_other(tmp_path: Path) -> None:
    def always(job: int) -> None:
        if job == 7:
            os.kill(os.getpid(), signal.SIGKILL)

    results = list(in_parallel(range(40), counting(tmp_path, always), 2))
    assert [one for one in results if isinstance(one, Lost)] == [Lost(7)]
    assert sorted(one for one in results if not isinstance(one, Lost)) == [job * job for job in range(40) if job != 7]


@pytest.mark.parametrize("count", [3, 40])
def test_a_fault_on_one_job_does_not_stop_the_others(tmp_path: Path, count: int) -> None:
    def faulty(job: int) -> None:
        if job == 2:
            raise ZeroDivisionError

    results = list(in_parallel(range(count), counting(tmp_path, faulty), 2))
    assert [one for one in results if isinstance(one, Lost)] == [Lost(2, "ZeroDivisionError")]
    assert len(results) == count
