"""A plan or a protocol as JSON in the product's own form, `"format": 1`."""

from protodsl.exchange.json.plan import plan_json
from protodsl.exchange.json.protocol import protocol_json

__all__ = ["plan_json", "protocol_json"]
