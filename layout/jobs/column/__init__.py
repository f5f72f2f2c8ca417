"""The job of a newspaper column: a season, its ledger, its files."""
