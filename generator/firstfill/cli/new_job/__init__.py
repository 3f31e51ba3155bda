"""Asking for a job and writing its file: commented, valid, and never over another one."""
