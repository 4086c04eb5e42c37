// The windows of one planting, worked out, and the pages that show them.
#pragma once

#include <vector>

#include "api/crop_reader.h"
#include "api/session.h"
#include "crop/forecast.h"
#include "sheet/page.h"

namespace wheyfield::api {

struct WorkedWindows {
  const Session& session;
  CropQuestion question;
  crop::Forecast forecast;
  // The other roads that could be taken as well, to be seen side by side.
  std::vector<crop::Forecast> beside;
};

// "windows": what is due when, by which road and why. `answer` gives the rows used so far.
sheet::Page windows_page(const WorkedWindows& worked, const Answer& answer);

// The road and its reason in the reader's words.
std::string road_text(const Session& session, const crop::Forecast& forecast);

// "Where the numbers come from", from what was noted in `used`.
void add_sources(sheet::Page& page, const Session& session,
                 const reference_data::UsedSources& used);

}  // namespace wheyfield::api
