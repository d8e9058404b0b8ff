"""What people do with findings: measurements to take, the load path."""
