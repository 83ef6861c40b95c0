"""The handout as data: blocks with message keys and values, without prose or markup."""
