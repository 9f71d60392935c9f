"""The hash chain: every act names the digest of the one before it.

An edited, dropped or swapped act no longer fits its neighbours. The digest covers ids only, so that
a name can be hidden or erased without breaking the chain.
"""

import hashlib
import json
from collections.abc import Mapping

GENESIS = "0" * 64


def canonical(value: object) -> str:
    """The one way to write `value` as JSON: sorted keys, no spaces, plain ASCII.

    >>> canonical({"b": 1, "a": [2, "é"]})
    '{"a":[2,"\\\\u00e9"],"b":1}'
    """
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=True)


def digest(previous: str, fields: Mapping[str, object]) -> str:
    """SHA-256 (hex) of the previous digest, a line feed, and the act's fields in canonical JSON.

    >>> digest(GENESIS, {"seq": 1})[:12]
    '9d4aa4a2c0c5'
    """
    return hashlib.sha256(f"{previous}\n{canonical(fields)}".encode()).hexdigest()
