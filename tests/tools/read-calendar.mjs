// Reads a calendar file with a library that the program does not know, and prints its events as JSON.
import { readFileSync } from 'node:fs';
import ICAL from 'ical.js';

const calendar = new ICAL.Component(ICAL.parse(readFileSync(process.argv[2], 'utf8')));
const events = calendar.getAllSubcomponents('vevent').map((component) => {
  const event = new ICAL.Event(component);
  return {
    uid: event.uid,
    summary: event.summary,
    description: event.description,
    start: event.startDate.toString(),
    end: event.endDate.toString(),
    floating: event.startDate.zone === ICAL.Timezone.localTimezone,
  };
});
console.log(JSON.stringify(events));
