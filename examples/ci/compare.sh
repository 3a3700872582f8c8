#!/bin/sh
# What the changed specs improved and worsened since a commit, as Markdown: compare.sh COMMIT > comment.md
# Exit code 1: some verdict got worse.
set -uf
cd "$(git rev-parse --show-toplevel)" || exit 2
code=0
IFS='
'
for spec in $(git -c core.quotePath=off diff --name-only --diff-filter=M "$1" -- '*.machine.yaml'); do
    git show "$1:$spec" | dryfit compare --as markdown --named "$spec" - "$spec" || code=$?
    echo
done
exit "$code"
