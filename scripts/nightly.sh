#!/usr/bin/env bash
# A million made-up, damaged and random tables against an independent parser; about an hour and a half on one core.
# The seed stands in the first line: `node scripts/fuzz-tables.ts --seed S --cases 1` makes one of them again.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
exec node scripts/bootstrap.mjs run scripts/fuzz-tables.ts --cases "${1:-1000000}"
