"""The handouts of one person: the sheet for today, the referral page, and the clinician's page of the case."""

from protodsl.handout.person.case_page import compose_case_page
from protodsl.handout.person.referral import compose_referral
from protodsl.handout.person.sheet import compose_person

__all__ = ["compose_case_page", "compose_person", "compose_referral"]
