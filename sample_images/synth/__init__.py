"""Draw photos with known truth, for tests, benchmarks and the README."""
