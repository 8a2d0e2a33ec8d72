"""Answers as people and programs read them: units, sentences, JSON and its schema."""
