package bellwire.analysis.landing;

/** Two terminals joined through the cable, by their places in the lists of both sides. */
record Connection(int near, int far) {}
