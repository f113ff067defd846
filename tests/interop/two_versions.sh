# SPDX-License-Identifier: MIT
# A calendar and its next version, a week later, when the last frost has moved by seven days, one
# planting is gone and another has come; read by import_twice.sh and programs.sh, not run.

# plan LAST_FROST CROP: a made-up garden with every character that iCalendar escapes in its names.
plan() {
  cat <<END
flowering_year = 2027
began = 2026-01-01
title = "Mühlgraben; Beete, 2027 🌼"
garden = "6d1c0a52-8f3b-4e77-a0c9-3b5e91d4f286"
[place]
latitude = 53.3
last_frost = "$1"
first_frost = "6 October"
frost_meaning = "garden"
[wish]
vases_per_week = 1
stems_per_vase = 10
from = "1 June"
to = "20 September"
[[bed]]
name = "Mühlgraben; bed, upper 🌼"
length_m = 3.3
width_m = 0.9
[[bed.stretch]]
length_m = 1.2
crops = ["cosmos"]
[[bed.stretch]]
length_m = 0.9
crops = ["cornflower"]
[[bed.stretch]]
length_m = 1.1
crops = ["$2"]
END
}

# two_versions: writes $work/v1.ics and $work/v2.ics, with the plans and jobs they come from.
two_versions() {
  today_1=2027-03-01
  today_2=2027-03-08
  plan "11 May" zinnia >"$work/plan-1.toml"
  plan "18 May" sunflower >"$work/plan-2.toml"
  "$trug" jobs "$work/plan-1.toml" --today $today_1 --json >"$work/jobs-1.json"
  write_quietly "$work/plan-1.toml" --today $today_1 -o "$work/year.ics"
  cp "$work/year.ics" "$work/v1.ics"
  # The jobs of the second are those for someone who holds the first.
  { echo 'calendar = "year.ics"'; cat "$work/plan-2.toml"; } >"$work/plan-2-told.toml"
  "$trug" jobs "$work/plan-2-told.toml" --today $today_2 --json >"$work/jobs-2.json"
  write_quietly "$work/plan-2.toml" --today $today_2 -o "$work/year.ics"
  cp "$work/year.ics" "$work/v2.ics"
}

# after_first READING...: do they hold the first version, and nothing else?
after_first() {
  "$python" "$readers/readers.py" "$work/plan-1.toml" "$work/jobs-1.json" "$@"
}

# after ORDER READING...: do they hold what import_twice.py expects after that order of imports?
after() {
  order=$1
  shift
  "$python" "$readers/import_twice.py" "$order" "$work/plan-1.toml" "$work/jobs-1.json" \
    "$work/plan-2.toml" "$work/jobs-2.json" $today_2 "$@"
}
