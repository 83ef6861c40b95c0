"""A protocol or a plan as a bundle of FHIR resources (HL7), in release 5 or 4B."""

from protodsl.exchange.fhir.plan import plan_bundle
from protodsl.exchange.fhir.protocol import protocol_bundle
from protodsl.exchange.fhir.release import R4B, R5, Release

__all__ = ["R4B", "R5", "Release", "plan_bundle", "protocol_bundle"]
