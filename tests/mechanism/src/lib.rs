//! Laws that hold for every spec: the typed reading agrees with the schema, a partial run with a full one, threads with each other.
