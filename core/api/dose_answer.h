// What the dose answers have in common: rows looked up and noted, loads in caps, cautions, one
// page.
#pragma once

#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "api/field_reader.h"
#include "api/session.h"
#include "dosing/dilution.h"
#include "dosing/soak.h"
#include "dosing/sprayer.h"
#include "sheet/page.h"

namespace wheyfield::api {

// A way of measuring and the fields it needs or may take.
struct Way {
  std::string name;
  std::vector<const char*> needs;
  std::vector<const char*> takes;
};
// Errors for the way `chosen`: missing-<field> for what it needs, and not-of-this-way for every
// given field that only other ways use: what she gave is never passed over in silence.
void hold_to_way(const std::vector<Way>& ways, const std::string& chosen, const FieldReader& r);

// A row of data/constants.toml, noted in answer.used.
const reference_data::Sourced& noted(const Session& session, std::string_view id,
                                     const char* used_for, Answer& answer);
// runs-advised, runs-redo-above, runs-apart-above.
dosing::RunLimits run_limits(const Session& session, Answer& answer);

bool too_strong_for_leaves(const Session& session, double parts);
// Question strength-strong beyond what is taught. Field /strength.
void question_strength(const Session& session, double parts, const std::string& written,
                       Answer& answer);
// That question, and the notice strength-not-for-leaves.
void judge_strength(const Session& session, double parts, const std::string& written,
                    Answer& answer);

// The caution of the page where a mix is too strong for leaves.
void caution_leaves(const Session& session, double parts, sheet::Page& page);

// A rate of mix in the answer's fields: litres_per_ha, litres_per_acre, serum_ml_per_100_m2.
void add_rate(quantity::Length rate, double parts, Answer& answer);
// Millilitres as they can be drawn: whole from 100 mL on, tenths from 10 mL on.
words::Decimal told_millilitres(quantity::Volume volume);
// The same members, all null, where no rate can be told.
void add_no_rate(Answer& answer);
// The same for sentences: {per_ha}, {per_acre}, {mix_rate} as the season file writes it, {parts},
// {on_100}.
words::Values rate_values(quantity::Length rate, double parts);

// The line for the season file, where `season check` would take it (mix-rate-limits).
void offer_rate(const Session& session, quantity::Length rate, const words::Values& values,
                sheet::Page& page);

// {litres_per_ha: [..], spread}
Json runs_json(const std::vector<quantity::Length>& rates, const dosing::Runs& runs);
// What a page says of runs that were not the same job: each of them, how far they lie apart, and
// that nothing is worked out before it is settled.
void list_runs(const words::Catalogue& words, const Json& runs, sheet::Page& page);

// {count, given_ml, strength {parts}, off, fits}
Json caps_json(const dosing::CapCount& caps);

// Full loads and the last part load of one container, in mL and in caps where a cap was measured.
struct CountedLoads {
  quantity::Volume container;
  std::string container_word;  // key behind "container."
  dosing::Loads loads;
  std::optional<quantity::Volume> cap;
  std::optional<dosing::CapCount> caps;       // of a full load
  std::optional<dosing::CapCount> caps_last;  // of the last part load
};
// Precondition container > 0, parts > 1. Notes cap-half-step and dose-tolerance when caps count.
CountedLoads count_loads(const Session& session, quantity::Volume mix, quantity::Volume container,
                         const char* container_word, double parts,
                         std::optional<quantity::Volume> cap, Answer& answer);
// {loads, full_loads, tank_l, serum_full_ml, caps, last_l, serum_last_ml, caps_last}
Json loads_json(const CountedLoads& counted);
// "6 full sprayers, each 6.5 caps ... Last part load: ..."
std::string loads_text(const words::Catalogue& words, const CountedLoads& counted);

// When seed goes in and comes out: {morning, in, out} as hours of the day.
dosing::SoakTimes soak_times(const Session& session, double hours);
// "Put it in early on the morning of sowing, at 6:00, and take it out by 12:00."
std::string soak_times_text(const Session& session, double hours);

// Fills `cautions` [{id, text}] of the answer and notes where each comes from.
void add_cautions(const Session& session, std::initializer_list<const char*> ids, Answer& answer);
// Notes that the answer stands on a formula of docs/models, worked out here.
void note_formula(const char* used_for, Answer& answer);
// Closes the page with the answer's cautions and one line of its sources, and puts it into `pages`.
void add_page(const Session& session, sheet::Page page, Answer& answer);

// The same problems, their pointers as this request names them: {"/runs", "/run"} renames "/runs"
// and "/runs/2".
outcome::Problems renamed(outcome::Problems problems,
                          const std::map<std::string, std::string>& names);

}  // namespace wheyfield::api
