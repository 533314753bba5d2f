#!/usr/bin/env bash
# What takes too long for every change; about two hours on one core. Each part prints its seed.
#   a million made-up, damaged and random tables against an independent parser
#     (`node scripts/fuzz-tables.ts --seed S --cases 1` makes one of them again)
#   1,000 kills of processes that write a book; power cuts and faults of the disk; every byte of an export touched
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
LAMPROOM_KILLS=1000 LAMPROOM_NIGHTLY=1 node scripts/bootstrap.mjs run node_modules/vitest/vitest.mjs run test/store test/doors/export.test.ts
exec node scripts/bootstrap.mjs run scripts/fuzz-tables.ts --cases "${1:-1000000}"
