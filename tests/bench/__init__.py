"""
Timings as ratios: ``python -m tests.bench`` (see docs/reference/benchmarks.md).

Each measurement runs the thing and its yardstick by turns in one run, on this machine, with traffic to
127.0.0.1 only. Absolute figures travel badly; ratios travel better.
"""
