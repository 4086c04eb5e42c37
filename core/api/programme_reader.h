// Reads a programme, and the groups planned for it, from a request.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "api/session.h"
#include "programme/programme.h"

namespace wheyfield::api {

// `body` has the shape of the programme's actions. Errors, with pointers under /programme: those of
// the readers, and
//   programme-without-trainers, trainer-twice, trainer-without-days, programme-zero (visits a day,
//   the lorry's price, cans and trips a day), lorry-without-days, lorry-dates-order.
outcome::Result<programme::Programme> read_programme(const Session& session,
                                                     const nlohmann::json& body,
                                                     reference_data::UsedSources& used);

// A weekday of each entry of the list `name`, without repeats, in the order of the week.
std::vector<calendar::Weekday> read_weekdays(const nlohmann::json& object, const char* name,
                                             const std::string& pointer,
                                             outcome::Problems& problems);

// group-currency, at `pointer`, for each group that counts in another money than the first; groups
// whose currency is empty are not known yet.
outcome::Problems other_currencies(const std::vector<std::string>& groups,
                                   const std::vector<std::string>& currencies,
                                   const std::function<std::string(std::size_t)>& pointer);

// The groups as programme.group answered them, `groups` of the body. Errors: those of the readers;
// group-currency (a group that counts in another money than the first).
outcome::Result<std::vector<programme::GroupPlans>> read_group_plans(const Session& session,
                                                                     const nlohmann::json& body);

// The member of programme.group's answer that `read_group_plans` reads.
Json group_plans_json(const programme::GroupPlans& group);

}  // namespace wheyfield::api
