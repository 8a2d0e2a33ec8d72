"""Faster ways to the end of a cure than integrating piece by piece: tables for a daily wave and for a log."""
