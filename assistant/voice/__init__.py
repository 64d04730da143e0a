"""Answers to words: pages laid out at any width."""
