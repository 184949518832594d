#!/usr/bin/env bash
# Generates profiles/package (definitions with snapshots) and profiles/checks (examples of the invariants) from profiles/fsh.
#   bash profiles/generate.sh           writes both
#   bash profiles/generate.sh --check   writes nothing and says whether what is committed is what would be generated
# Needs Node 20 or later and npm; works offline once `npm ci` has run in tests/peers.
# Exit codes: 0 done or the same, 1 FSH at fault or what is committed differs, 2 usage, 3 Node or npm missing or npm ci failed.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
peers=$root/tests/peers
work=$root/artifacts/profiles

case "${1-}" in
  '') check=false ;;
  --check) check=true ;;
  *) echo 'usage: bash profiles/generate.sh [--check]' >&2; exit 2 ;;
esac

if ! command -v node >/dev/null || ! command -v npm >/dev/null; then
  echo 'Node and npm are needed: install Node 20 or later.' >&2
  exit 3
fi
if [ ! -e "$peers/node_modules/.package-lock.json" ] || [ "$peers/package-lock.json" -nt "$peers/node_modules/.package-lock.json" ]; then
  (cd "$peers" && npm ci --no-audit --no-fund --loglevel=error) || exit 3
fi

# SUSHI looks for packages below HOME: a folder of ours keeps the user's own cache out of it, both ways.
node "$peers/make-core.mjs" "$work/home/.fhir/packages"
rm -rf "$work/sushi" "$work/out"
mkdir -p "$work/sushi/input"
cp -R "$root/profiles/fsh" "$work/sushi/input/fsh"
mv "$work/sushi/input/fsh/sushi-config.yaml" "$work/sushi/"

# A registry that nobody answers at, so that nothing is fetched behind our back.
if ! HOME=$work/home FPL_REGISTRY=http://127.0.0.1:9 node "$peers/node_modules/fsh-sushi/dist/app.js" \
    build --snapshot "$work/sushi" --out "$work/sushi" >"$work/sushi.log" 2>&1 || grep -qE '^(error|warn) ' "$work/sushi.log"; then
  grep -E -A4 '^(error|warn) ' "$work/sushi.log" >&2 || cat "$work/sushi.log" >&2
  exit 1
fi
node "$root/profiles/assemble.mjs" "$work/sushi/fsh-generated/resources" "$root/profiles/fsh/sushi-config.yaml" "$work/out"

if $check; then
  for part in package checks; do
    if ! diff -r "$root/profiles/$part" "$work/out/$part" >"$work/difference.txt"; then
      head -n 40 "$work/difference.txt" >&2
      echo "profiles/$part is not what profiles/fsh gives: run 'bash profiles/generate.sh' and commit the result." >&2
      exit 1
    fi
  done
  echo 'profiles/package and profiles/checks are what profiles/fsh gives.'
else
  for part in package checks; do
    rm -rf "${root:?}/profiles/$part"
    cp -R "$work/out/$part" "$root/profiles/$part"
  done
  echo "$(find "$root/profiles/package" -name '*.json' | wc -l) files in profiles/package, $(find "$root/profiles/checks" -name '*.json' | wc -l) in profiles/checks."
fi
