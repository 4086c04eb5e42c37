// What the group's actions share: the notes of one meeting, gathered once, and sums in words.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "api/session.h"
#include "group/hand_outs.h"
#include "group/meeting_notes.h"
#include "group/payments.h"
#include "sheet/page.h"

namespace wheyfield::api {

// What the season plan has for that meeting: its own page and fields.
struct PlannedMeeting {
  Json fields;  // of `meetings` of season.plan
  sheet::Page page;
};

// Somebody who stayed away last time, and the serum that was handed to nobody.
struct Missed {
  group::Away who;
  std::int64_t kept_ml = 0;
  std::string
      send_by;  // ISO: the day after which its use is over; "" = none before the next meeting
};

struct GroupMeeting {
  calendar::Date on;
  bool meeting_day = false;
  bool season_told = false;
  std::optional<PlannedMeeting> plan;
  std::optional<calendar::Date> last;
  std::vector<Missed> missed;
  std::vector<std::string> absent_twice;
  std::vector<group::Duty> duties;
  std::vector<group::HandOut> products;  // up to the day
  std::vector<std::string> spoiled;      // batches noted lost of which serum was made or handed out
  group::Payments since;                 // from the last meeting's day to the day
  group::Payments in_all;                // up to the day
  std::vector<std::string> joined;       // after the last meeting's day, up to the day
  std::vector<std::string> left;
  std::vector<group::Away> list;  // members who are there, and farms that nobody holds
  std::vector<std::string> visits_due;
};

sheet::Page group_meeting_page(const Session& session, const GroupMeeting& meeting);

// {money, kind: [{what, amount, unit}]}; money as the season's.
Json paid_json(const group::Paid& paid);
// "120 c, 4.5 L milk"; "nothing" when nothing was paid.
std::string paid_text(const Session& session, const group::Paid& paid);

// "m2 (farm 2)", "farm 2", "m2".
std::string person_text(const Session& session, const std::string& member, const std::string& farm);

// "4, 9, 12".
std::string list_text(const std::vector<std::string>& parts);

}  // namespace wheyfield::api
