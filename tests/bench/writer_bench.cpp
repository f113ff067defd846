// SPDX-License-Identifier: MIT
// Writes a calendar of so many events to the standard output: by trug's writer with all its checks,
// or by a bare loop over libical that builds, writes and frees one event after the other and checks
// nothing. Both say the same; writer_bench.sh measures.
// usage: writer_bench trug|libical EVENTS
#include <fmt/core.h>
#include <libical/ical.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include "calendar/regenerate.h"

namespace trug::calendar {
namespace {

using namespace std::chrono_literals;

const Date kFirstDay = make_date(2027, 1, 1);
constexpr std::string_view kGarden = "3a1f7c52-1f0e-4b53-9a52-6d0c5a3f8e17";

Event event_of(int number) {
  Event event;
  event.uid = to_string(uuid_v5(parse_uuid(kGarden).value(), std::to_string(number)));
  event.start = kFirstDay + Days{number % 365};
  event.end = event.start + Days{1};
  event.summary = fmt::format("Plant out: dahlia, strip {}", number % 97);
  event.description = fmt::format(
      "16 plants at 40 cm in the west bed, strip {}; hardened off for a week.\nStill right until "
      "the end of the month, as long as no frost is forecast: café au lait colours last.\nWater "
      "them in, and put a stake beside each before it is planted.",
      number % 97);
  event.location = "west bed";
  event.category = "plant";
  event.reminder = 6h;
  event.flowering_year = 2027;
  return event;
}

void write_by_trug(int count) {
  std::vector<Event> events;
  events.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) events.push_back(event_of(i));
  const CalendarHead head{
      .space = parse_uuid(kGarden).value(), .name = "Bench", .colour = "", .product = "trug bench"};
  const Run run{.now = kFirstDay + 0s, .today = kFirstDay, .flowering_years = {2027}};
  const Regenerated result = regenerate(events, head, std::nullopt, run);
  std::fwrite(result.bytes.data(), 1, result.bytes.size(), stdout);
}

icaltimetype ical_date(Date day) {
  const std::chrono::year_month_day civil(day);
  icaltimetype time = icaltime_null_date();
  time.year = static_cast<int>(civil.year());
  time.month = static_cast<int>(static_cast<unsigned>(civil.month()));
  time.day = static_cast<int>(static_cast<unsigned>(civil.day()));
  return time;
}

void write_by_libical(int count) {
  icaltimetype stamp = ical_date(kFirstDay);
  stamp.is_date = 0;
  stamp.zone = icaltimezone_get_utc_timezone();
  std::fputs("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//trug//bench//EN\r\n", stdout);
  for (int i = 0; i < count; ++i) {
    const Event event = event_of(i);
    icalcomponent* alarm = icalcomponent_new(ICAL_VALARM_COMPONENT);
    icalcomponent_add_property(alarm, icalproperty_new_action(ICAL_ACTION_DISPLAY));
    icalcomponent_add_property(alarm, icalproperty_new_description(event.summary.c_str()));
    icalcomponent_add_property(alarm,
                               icalproperty_new_trigger(icaltriggertype_from_int(-6 * 3600)));
    icalcomponent* vevent = icalcomponent_new(ICAL_VEVENT_COMPONENT);
    for (icalproperty* property :
         {icalproperty_new_uid(event.uid.c_str()), icalproperty_new_dtstamp(stamp),
          icalproperty_new_lastmodified(stamp), icalproperty_new_sequence(0),
          icalproperty_new_dtstart(ical_date(event.start)),
          icalproperty_new_dtend(ical_date(event.end)),
          icalproperty_new_summary(event.summary.c_str()),
          icalproperty_new_description(event.description.c_str()),
          icalproperty_new_location(event.location.c_str()),
          icalproperty_new_categories(event.category.c_str()),
          icalproperty_new_status(ICAL_STATUS_CONFIRMED),
          icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT)}) {
      icalcomponent_add_property(vevent, property);
    }
    icalcomponent_add_component(vevent, alarm);
    char* text = icalcomponent_as_ical_string_r(vevent);
    std::fputs(text, stdout);
    icalmemory_free_buffer(text);
    icalcomponent_free(vevent);
  }
  std::fputs("END:VCALENDAR\r\n", stdout);
}

}  // namespace
}  // namespace trug::calendar

int main(int count, char** words) {
  const std::string_view writer = count == 3 ? words[1] : "";
  if (writer == "trug") {
    trug::calendar::write_by_trug(std::atoi(words[2]));
  } else if (writer == "libical") {
    trug::calendar::write_by_libical(std::atoi(words[2]));
  } else {
    std::fputs("usage: writer_bench trug|libical EVENTS\n", stderr);
    return 2;
  }
  return 0;
}
