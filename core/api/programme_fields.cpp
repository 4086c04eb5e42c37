#include "api/programme_fields.h"

namespace wheyfield::api {
namespace {

const Fields programme_head{"ProgrammeHead",
                            {{"name", Holds::text, true},
                             {"worth_moving", Holds::money, false},
                             {"groups", Holds::texts, false}}};
const Fields trainer{"Trainer",
                     {{"name", Holds::text, true},
                      {"days", Holds::texts, true},
                      {"visits_a_day", Holds::number, false}}};
const Fields fixed_day{"FixedDay", {{"group", Holds::text, true}, {"day", Holds::weekday, true}}};
const Fields lorry{"Lorry",
                   {{"trip", Holds::money, true},
                    {"holds", Holds::number, true},
                    {"can", Holds::volume, true},
                    {"day", Holds::weekday, false},
                    {"on", Holds::texts, false},
                    {"from", Holds::date, false},
                    {"until", Holds::date, false},
                    {"trips_a_day", Holds::number, false},
                    {"keeping", Holds::money, false}}};
const Fields programme{"Programme",
                       {{"programme", Holds::object, true, "", &programme_head},
                        {"trainers", Holds::list, true, "", &trainer},
                        {"fixed", Holds::list, false, "", &fixed_day},
                        {"lorry", Holds::object, false, "", &lorry}}};

const Fields need{"GroupNeed",
                  {{"item", Holds::text, true},
                   {"unit", Holds::text, true},
                   {"amount", Holds::number, true},
                   {"in_hand", Holds::number, true}}};
const Fields dated_need{"DatedNeed", {{"on", Holds::date, true}, {"ml", Holds::number, true}}};
const Fields handed_over{"HandedOver",
                         {{"gap", Holds::number, true},
                          {"least_short", Holds::flag, true},
                          {"better", Holds::flag, true}}};
const Fields day_plan{"GroupDay",
                      {{"day", Holds::weekday, true},
                       {"cost", Holds::number, true},
                       {"bound", Holds::number, true},
                       {"gap", Holds::number, true},
                       {"least_short", Holds::flag, true},
                       {"short_ml", Holds::number, true},
                       {"guess_ml", Holds::number, true},
                       {"batches", Holds::number, true},
                       {"first_start", Holds::date, false},
                       {"made_ml", Holds::number, true},
                       {"needs", Holds::list, true, "", &need},
                       {"molasses", Holds::list, true, "", &dated_need},
                       {"handed_over", Holds::object, false, "", &handed_over}}};
const Fields group_plans{"GroupPlans",
                         {{"group", Holds::text, true},
                          {"season", Holds::text, true},
                          {"currency", Holds::text, true},
                          {"from", Holds::date, true},
                          {"to", Holds::date, true},
                          {"first_start", Holds::date, true},
                          {"farms", Holds::number, true},
                          {"fields", Holds::number, true},
                          {"acres", Holds::number, true},
                          {"now", Holds::weekday, true},
                          {"days", Holds::list, true, "", &day_plan},
                          {"with_solver", Holds::flag, false}}};

const Fields check{"ProgrammeCheck",
                   {{"programme", Holds::object, true, "", &programme},
                    {"groups", Holds::texts, true},
                    {"currencies", Holds::texts, false}}};
const Fields group{"ProgrammeGroup",
                   {{"group", Holds::text, true},
                    {"season", Holds::object, true},  // read as that of season.plan
                    {"days", Holds::texts, true},
                    {"method", Holds::choice, false, "dynamic-programme|exact"}}};
const Fields assign{"ProgrammeAssign",
                    {{"programme", Holds::object, true, "", &programme},
                     {"groups", Holds::list, true, "", &group_plans},
                     {"not_planned", Holds::texts, false},
                     {"pages", Holds::flag, false}}};

}  // namespace

const Fields& programme_check_fields() { return check; }
const Fields& programme_group_fields() { return group; }
const Fields& programme_assign_fields() { return assign; }

}  // namespace wheyfield::api
