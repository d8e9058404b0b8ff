"""The build: a parts list read into typed records, and the fit graph of what touches what."""
