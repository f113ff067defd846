// SPDX-License-Identifier: MIT
#include "show/jobs_output.h"

#include "show/json.h"

namespace trug::show {

std::string jobs_as(Format format, const JobsShown& jobs) {
  switch (format) {
    case Format::Page:
      return jobs_page(jobs);
    case Format::Json:
      return jobs_json(jobs.head, jobs.reckoned, jobs.rows);
    case Format::Csv:
      return jobs_csv(jobs.reckoned, jobs.rows);
  }
  return "";
}

}  // namespace trug::show
