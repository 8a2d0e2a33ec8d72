"""Reading a catalogue file and telling its faults."""
