"""What the log has acknowledged outlives the program, and two writers never lose each other's entries."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from coach.log.jobs import Log
from coach.log.kinds.note import Note
from tests.log.bodies import BEGAN

ROOT = Path(__file__).resolve().parents[2]
AT = "2026-11-25T09:30:00Z"

WRITE_FOR_EVER = """
import sys
from pathlib import Path
from coach.log.jobs import Log
from tests.log.bodies import note
log = Log(Path(sys.argv[1]))
number = log.last_number("axe")
while True:
    number = log.append("axe", number, "2026-11-25T09:30:00Z", note("x" * 300)).number
    print(number, flush=True)
"""

WRITE_BESIDE_ANOTHER = """
import sys
from pathlib import Path
from coach.log.errors import LogBusy, OutOfDate
from coach.log.jobs import Log
from tests.log.bodies import note
log = Log(Path(sys.argv[1]))
seen = 1
print("ready", flush=True)
sys.stdin.readline()
for turn in range(60):
    body = note(f"{sys.argv[2]} {turn}")
    while True:
        try:
            seen = log.append("axe", seen, "2026-11-25T09:30:00Z", body).number
            break
        except OutOfDate as late:
            seen = late.missed[-1].number
        except LogBusy:
            pass
"""


def python(program: str, *arguments: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-B", "-c", program, *arguments],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "shop.db"
    with Log(path) as log:
        log.begin("axe", AT, BEGAN)
    return path


def test_nothing_acknowledged_is_lost_when_the_program_is_killed(path: Path) -> None:
    for lines_before_the_end in (1, 2, 5, 17, 60):
        with python(WRITE_FOR_EVER, str(path)) as writer:
            assert writer.stdout is not None
            for _ in range(lines_before_the_end):
                writer.stdout.readline()
            writer.kill()
            rest = writer.stdout.read().split("\n")
        with Log(path) as log:
            written = [entry.number for entry in log.entries("axe")]
            assert log.verify() == []
        whole_lines = [int(line) for line in rest[:-1]]
        acknowledged = whole_lines[-1] if whole_lines else 0
        assert written == list(range(1, len(written) + 1))
        if acknowledged:
            assert len(written) in (acknowledged, acknowledged + 1)
        assert len(written) > lines_before_the_end


def test_two_programs_on_one_job_keep_every_entry_in_one_order(path: Path) -> None:
    writers = [python(WRITE_BESIDE_ANOTHER, str(path), name) for name in ("bench", "tablet")]
    for writer in writers:
        assert writer.stdout is not None
        assert writer.stdout.readline() == "ready\n"
    for writer in writers:
        assert writer.stdin is not None
        writer.stdin.write("go\n")
        writer.stdin.flush()
    for writer in writers:
        writer.communicate()
        assert writer.returncode == 0
    with Log(path) as log:
        entries = log.entries("axe")
        assert log.verify() == []
    for name in ("bench", "tablet"):
        written = [entry.body.text for entry in entries if isinstance(entry.body, Note)]
        assert [text for text in written if text.startswith(name)] == [f"{name} {n}" for n in range(60)]
    assert len(entries) == 1 + 2 * 60


def test_two_programs_may_make_the_same_log_at_once(tmp_path: Path) -> None:
    path = tmp_path / "new" / "shop.db"
    begin = (
        "import sys; from pathlib import Path; from coach.log.jobs import Log;"
        "from tests.log.bodies import BEGAN;"
        f"Log(Path(sys.argv[1]), wait_s=30).begin(sys.argv[2], '{AT}', BEGAN)"
    )
    writers = [python(begin, str(path), f"job-{n}") for n in range(4)]
    for writer in writers:
        with writer:
            assert writer.wait() == 0
    with Log(path) as log:
        assert sorted(log.jobs()) == ["job-0", "job-1", "job-2", "job-3"]
    assert [found.name for found in path.parent.iterdir()] == ["shop.db"]
