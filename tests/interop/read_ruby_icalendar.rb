# frozen_string_literal: true
# SPDX-License-Identifier: MIT
# Reads an iCalendar file with ruby-icalendar and prints its events as JSON.
# usage: ruby read_ruby_icalendar.rb FILE
# The same object as read_calendar.py, with the description. Ends with 1 where the library's own
# `valid?` refuses the calendar, an event or an alarm.
require 'icalendar'
require 'json'

def day(value, event)
  raise "#{event.uid} has no date: #{value.inspect}" unless value.is_a?(Icalendar::Values::Date)

  value.strftime('%Y-%m-%d')
end

# Seconds after the start.
def trigger_seconds(alarm)
  duration = alarm.trigger
  days = (duration.weeks * 7) + duration.days
  minutes = (((days * 24) + duration.hours) * 60) + duration.minutes
  (duration.past ? -1 : 1) * ((minutes * 60) + duration.seconds)
end

def read(event)
  raise "#{event.uid} is not valid" unless event.valid?(true)
  raise "#{event.uid} has an alarm that is not valid" unless event.alarms.all? { |a| a.valid?(true) }

  { uid: event.uid.to_s, start: day(event.dtstart, event), end: day(event.dtend, event),
    sequence: event.sequence.to_i, status: event.status&.to_s, summary: event.summary.to_s,
    description: event.description.to_s, location: event.location.to_s,
    alarms: event.alarms.map { |a| trigger_seconds(a) } }
end

abort 'usage: ruby read_ruby_icalendar.rb FILE' unless ARGV.size == 1
calendars = File.open(ARGV[0], 'r:UTF-8') { |file| Icalendar::Calendar.parse(file) }
raise "#{calendars.size} calendars in the file" unless calendars.size == 1
raise 'the calendar is not valid' unless calendars[0].valid?(true)

puts JSON.pretty_generate({ events: calendars[0].events.map { |event| read(event) } })
