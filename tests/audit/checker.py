"""Holds a dumped tournament document against an independent reading of the rules."""

from __future__ import annotations

import json
import sys
from pathlib import Path

try:
    from tests.audit.judge.compare import differences
except ImportError:  # run as a script
    sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
    from tests.audit.judge.compare import differences


def check(document: dict[str, object]) -> list[str]:
    """What the document says was worked out and the rules do not give; empty where they agree."""
    return list(differences(document))


def main() -> int:
    """Check the files named; 1 if there is any difference."""
    bad = 0
    for name in sys.argv[1:]:
        found = check(json.loads(Path(name).read_text(encoding="utf-8")))
        for line in found:
            sys.stdout.write((f"{name}: {line}" if len(sys.argv) > 2 else line) + "\n")
        bad += bool(found)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
