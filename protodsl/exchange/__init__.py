"""From a plan or a protocol to what other programs read: calendars, tables, JSON and FHIR."""
