"""Shapes of requests and answers. Input and output are separate; a hot list is shaped by a function instead."""
