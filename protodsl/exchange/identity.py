"""Names that stay the same whenever a thing is made again, and say nothing of whose it is.

A name-based UUID, version 5 (RFC 9562, section 5.5), over what makes the thing what it is.
"""

from __future__ import annotations

import uuid

from protodsl.model.clinic import Clinic

_NAMESPACE = uuid.UUID("b87e80f5-141e-44bc-9c21-11ce763fed41")


def identity(clinic: Clinic, *parts: str) -> str:
    """The UUID of a thing of a clinic; each part goes in with its length, so that no two lists run into one."""
    name = "".join(f"{len(part)}:{part}" for part in (clinic.name, clinic.address, *parts))
    return str(uuid.uuid5(_NAMESPACE, name))
