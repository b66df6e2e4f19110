"""One module a subject; each a pure function of the plan and the rules."""
