"""A plan or a protocol as a table of doses: comma-separated values (RFC 4180), UTF-8, with a header row."""

from protodsl.exchange.table.plan_rows import plan_table
from protodsl.exchange.table.protocol_rows import protocol_table

__all__ = ["plan_table", "protocol_table"]
