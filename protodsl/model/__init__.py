"""What a protocol and a case mean, as frozen values that know no text."""
