// SPDX-License-Identifier: MIT
// Reads an iCalendar file with the npm package ical.js (the parser inside Thunderbird) and prints
// its events as JSON, the same object as read_calendar.py, with the description.
// usage: node read_ical_js.cjs FOLDER FILE, where FOLDER holds node_modules/ical.js
'use strict';
const fs = require('fs');
const path = require('path');

const [folder, file] = process.argv.slice(2);
const ICAL = require(path.resolve(folder, 'node_modules/ical.js/dist/ical.es5.cjs'));

function day(event, name) {
  const value = event.getFirstPropertyValue(name);
  if (!(value instanceof ICAL.Time) || !value.isDate) throw new Error(`${name} is no date: ${value}`);
  return value.toString();
}

function read(event) {
  const alarms = event.getAllSubcomponents('valarm');
  return {
    uid: event.getFirstPropertyValue('uid'),
    start: day(event, 'dtstart'),
    end: day(event, 'dtend'),
    sequence: event.getFirstPropertyValue('sequence'),
    status: event.getFirstPropertyValue('status'),
    summary: event.getFirstPropertyValue('summary'),
    description: event.getFirstPropertyValue('description'),
    location: event.getFirstPropertyValue('location'),
    alarms: alarms.map((alarm) => alarm.getFirstPropertyValue('trigger').toSeconds()),
  };
}

const calendar = new ICAL.Component(ICAL.parse(fs.readFileSync(file, 'utf8')));
if (calendar.name !== 'vcalendar') throw new Error(`not a calendar: ${calendar.name}`);
const events = calendar.getAllSubcomponents('vevent').map(read);
console.log(JSON.stringify({ events }, null, 2));
