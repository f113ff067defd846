// SPDX-License-Identifier: MIT
#include "calendar/event.h"

#include <gtest/gtest.h>

#include "calendar/calendar_builders.h"

namespace trug::calendar {
namespace {

using test::kGarden;
using test::uuid;
using work::JobKey;
using work::JobKind;

// The UUIDs of this file are the promise that a calendar made today is still the same calendar
// after an update. They come from Python's uuid module (RFC 9562, 5.5), not from trug:
//   python3 -c '
//   import unicodedata, uuid
//   n = lambda s: unicodedata.normalize("NFC", s)
//   f = lambda s: n(n(s).casefold())
//   garden = uuid.UUID("3f0c7a52-9d1e-4b86-a7c4-51e2d86f0b19")
//   space = uuid.uuid5(garden, f("")); print(space)
//   print(uuid.uuid5(space, f("\x1f".join(
//       ["2027", "north bed", "zinnia", "1", "sow", "0", "0"]))))'
struct GoldenJob {
  const char* name;
  JobKey key;
  const char* uid;
};

TEST(Event, UidsAreThoseOfPythonsUuidModule) {
  const std::vector<GoldenJob> jobs = {
      {"a job",
       {2027, "north bed", "zinnia", "1", JobKind::Sow, 0, 0},
       "294222d3-e27c-5f8a-8fec-674564b044fb"},
      {"first succession",
       {2027, "north bed", "zinnia", "1", JobKind::Sow, 1, 0},
       "ebcbf992-88ee-5983-858b-74ae128205a9"},
      {"second succession",
       {2027, "north bed", "zinnia", "1", JobKind::Sow, 2, 0},
       "a6ed9574-e199-5768-9242-63e978441061"},
      {"repeated",
       {2027, "north bed", "zinnia", "1", JobKind::Sow, 0, 1},
       "b33b65fd-0fcb-5b65-b12b-a07a0367130d"},
      {"another flowering year",
       {2028, "north bed", "zinnia", "1", JobKind::Sow, 0, 0},
       "de3c66a0-a938-506c-ba5d-8e2fc77230eb"},
      {"planting with an id, kind of two words",
       {2027, "north bed", "zinnia", "late", JobKind::PrickOut, 0, 0},
       "18b952e9-ff5e-5a28-8721-f08339ec97e6"},
      {"letters beyond ASCII",
       {2027, "Gr\u00fcner Streifen", "daffodil", "1", JobKind::ClearAndFeed, 0, 0},
       "2fe0f269-90de-5de7-b4cb-d0a0fa4f3d1f"},
      {"numbers side by side",
       {2027, "1", "1", "1", JobKind::FirstCut, 11, 0},
       "ff5ee8e4-99b2-53b3-9642-558b5712a98e"},
      {"the same digits, shared out otherwise",
       {2027, "1", "1", "1", JobKind::FirstCut, 1, 10},
       "ecb9438b-887c-5e0a-8f24-e026c27afc09"},
  };
  for (const GoldenJob& job : jobs) {
    SCOPED_TRACE(job.name);
    EXPECT_EQ(job_uid(test::space(), job.key), job.uid);
  }
}

TEST(Event, EachPartOfAGardenHasASpaceOfItsOwn) {
  EXPECT_EQ(to_string(namespace_of(uuid(kGarden), "")), "7677aa91-851c-5b86-b25c-dec0dee99ded");
  EXPECT_EQ(to_string(namespace_of(uuid(kGarden), "Ann")), "3c7c0e2f-8d1e-5b67-b8cc-e1a62e2720f0");
  const JobKey key{2027, "north bed", "zinnia", "1", JobKind::Sow, 0, 0};
  EXPECT_EQ(job_uid(namespace_of(uuid(kGarden), "Ann"), key),
            "e862a055-a0a4-5735-95f3-8b1b11d6b0bd");
}

TEST(Event, CaseAndUnicodeFormDoNotMakeAnotherJob) {
  const JobKey composed{2027, "Gr\u00fcner Streifen", "Zinnia", "1", JobKind::Sow, 0, 0};
  const JobKey decomposed{2027, "gru\u0308ner streifen", "zinnia", "1", JobKind::Sow, 0, 0};
  EXPECT_EQ(job_uid(test::space(), composed), job_uid(test::space(), decomposed));
}

}  // namespace
}  // namespace trug::calendar
