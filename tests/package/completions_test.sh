#!/bin/sh
# SPDX-License-Identifier: MIT
# Asks the shells what they would put in.
# usage: sh completions_test.sh FOLDER_OF_DOCUMENTS
set -eu
documents=$(cd "$1" && pwd)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
touch garden.toml notes.txt
mkdir beds
fail() { echo "FAILED: $1" >&2; exit 1; }

# expect SHELL "typed words" "a word it offers" "a word it does not offer"
expect() {
  offered=$("ask_$1" "$2")
  printf '%s\n' "$offered" | grep -qx -- "$3" || fail "$1: '$2' does not offer '$3', but: $offered"
  if printf '%s\n' "$offered" | grep -qx -- "$4"; then fail "$1: '$2' offers '$4'"; fi
}

ask_bash() {
  bash --norc -c '
    source "$1/trug.bash"
    read -ra COMP_WORDS <<<"$2"
    [[ $2 == *" " ]] && COMP_WORDS+=("")
    COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
    _trug
    printf "%s\n" "${COMPREPLY[@]}"' bash "$documents" "$1"
}
ask_fish() {
  fish --no-config -c 'source $argv[1]/trug.fish; complete -C $argv[2]' "$documents" "$1" |
    cut -f 1
}
# zsh offers only to a line editor: one in a terminal of its own, whose compadd tells what it gets.
ask_zsh() {
  zsh -f "$2" "$documents" "$1"
}

cat >ask.zsh <<'ASK'
zmodload zsh/zpty
zpty asked zsh -f -i
# Everything up to a mark, reckoned so that its echo is none.
zpty -w asked "PS1=; fpath=($1 \$fpath); autoload -Uz compinit; compinit -D -u"
zpty -w asked 'compadd() { [[ "$*" == *" -O "* || "$*" == *" -A "* || "$*" == *" -D "* ]] && { builtin compadd "$@"; return }
  local -a found; builtin compadd -O found "$@"; print -rl -- BEGIN ${found%%:*} END; builtin compadd "$@" }'
zpty -w asked 'zle-line-init() { print -r -- EDITOR-$((1+1))-UP }; zle -N zle-line-init'
zpty -w asked 'bindkey "^I" complete-word; setopt no_beep; print READY-$((1+1))-NOW'
# What is typed before the line editor is there is lost to it.
zpty -r -m asked text '*READY-2-NOW*EDITOR-2-UP*'
zpty -n -w asked "$2"$'\t'
zpty -w asked $'\x15print ALL-$((1+1))-DONE'
zpty -r -m asked text '*ALL-2-DONE*' || exit 1
print -r -- $text | tr -d '\r' | sed -n '/BEGIN/,/END/p' | sed 's/.*BEGIN//; /END/d; s/=$//; /^$/d'
ASK
ask_zsh() { timeout 60 zsh -f "$folder/ask.zsh" "$documents" "$1"; }

for shell in bash fish zsh; do
  expect "$shell" "trug " calendar --from
  expect "$shell" "trug jobs --f" --from --file
  expect "$shell" "trug calendar garden.toml --for " feed sow
  expect "$shell" "trug jobs garden.toml --only " harden-off feed
  expect "$shell" "trug check " garden.toml notes.txt
  expect "$shell" "trug crop sweet" sweet-william zinnia
  expect "$shell" "trug help stre" stretch jobs
done
echo "bash, fish and zsh offer what they should"
