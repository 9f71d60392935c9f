"""A draw committed to before it is made.

Version 1. The tournament draws a secret, 64 hexadecimal digits, and publishes its commitment
before entries close:

    commitment            SHA-256 of the UTF-8 text  draw commitment/1|<secret>
    seed of a draw's lot  SHA-256 of the UTF-8 text  draw seed/1|<secret>|<weight>|<n>

both as hexadecimal digits; <weight> is the id of the weight, <n> is 1 for its first draw and one
more for each that was taken back. A seed tells nothing of the secret, so that a weight may be drawn
and shown while others wait. When nothing waits the secret is told, and everybody can work out
the commitment and every seed.
"""

from hashlib import sha256


def commitment(secret: str) -> str:
    """What is published of a secret beforehand.

    >>> commitment("00")
    '9d4ee7176d79f1847fe66af2a6f11767c60b1c89f19aaa03e572bb84e60a00b5'
    """
    return sha256(f"draw commitment/1|{secret}".encode()).hexdigest()


def seed_of(secret: str, weight: str, number: int) -> str:
    """The seed of the lot for the n-th draw of a weight.

    >>> seed_of("00", "125", 1) == seed_of("00", "125", 2)
    False
    """
    return sha256(f"draw seed/1|{secret}|{weight}|{number}".encode()).hexdigest()
