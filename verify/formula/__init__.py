"""What a SAT solver is given: clauses over the digits of cells, and diagrams of what is noted."""
