#include "lot_sizing/simulate.h"

#include <algorithm>
#include <utility>

#include "lot_sizing/serve.h"
#include "numerics/stream.h"

namespace wheyfield::lot_sizing {
namespace {

double ratio(std::int64_t part, std::int64_t whole) {
  return whole == 0 ? 1.0 : static_cast<double>(part) / static_cast<double>(whole);
}

// Units of one product over all its dues and seasons.
DueTally summed(const ProductTally& product) {
  DueTally sum;
  for (const DueTally& due : product.due) {
    sum.on_time += due.on_time;
    sum.late += due.late;
    sum.missed += due.missed;
  }
  return sum;
}

std::int64_t asked(const DueTally& tally) { return tally.on_time + tally.late + tally.missed; }

// Takes the setup's amounts out of what is free (-1) or gives them back (1). Still nothing below
// nought?
bool change(std::vector<std::vector<int>>& left, const Setup& setup, int sign) {
  bool enough = true;
  for (const Take& take : setup.takes) {
    std::vector<int>& days = left[static_cast<std::size_t>(take.resource)];
    const int end = std::min(take.to, static_cast<int>(days.size()));
    for (int day = std::max(0, take.from); day < end; ++day) {
      int& free = days[static_cast<std::size_t>(day)];
      free += sign * take.amount;
      enough = enough && free >= 0;
    }
  }
  return enough;
}

bool spoils_first(const Lot& a, const Lot& b) { return a.use_by < b.use_by; }

}  // namespace

class Seasons::OneSeason {
 public:
  explicit OneSeason(const Seasons& all)
      : all_(all), free_(all.free_), supplies_(all.supplies_), lots_(all.sides_.size()) {}

  void play(std::uint64_t seed, std::int64_t season) {
    for (std::size_t i = all_.plan_.held.size(); i < attempts_.size(); ++i) draw_on(i, -1);
    attempts_.clear();
    luck_.clear();
    failed_.clear();
    for (std::size_t i = 0; i < all_.plan_.held.size(); ++i) {
      luck_.emplace_back(seed, static_cast<std::uint64_t>(season), i);
      attempt(all_.plan_.held[i], i);
    }
    while (!failed_.empty()) {
      const auto first = std::min_element(
          failed_.begin(), failed_.end(),
          [&](std::size_t a, std::size_t b) { return attempts_[a].ready < attempts_[b].ready; });
      const std::size_t lost = *first;
      failed_.erase(first);
      brew_again(lost);
    }
  }

  const std::vector<Attempt>& attempts() const { return attempts_; }

  void count(Tally& tally) {
    for (std::size_t r = 0; r < lots_.size(); ++r) lots_[r] = all_.problem_.products[r].stock;
    for (std::size_t i = 0; i < attempts_.size(); ++i) {
      const Attempt& a = attempts_[i];
      ProductTally& product = tally.products[a.held.product];
      product.failed += a.failed ? 1 : 0;
      product.rebrewed += i >= all_.plan_.held.size() ? 1 : 0;
      const Session& session = session_of(a.held);
      if (!a.failed)
        lots_[a.held.product].push_back(
            {a.ready, session.use_by + (a.ready - session.ready), a.held.units});
    }
    bool all_on_time = true;
    for (std::size_t r = 0; r < lots_.size(); ++r)
      all_on_time = share_out(r, tally.products[r]) && all_on_time;
    tally.all_on_time += all_on_time ? 1 : 0;
    ++tally.seasons;
  }

 private:
  const Session& session_of(const Held& held) const {
    return all_.problem_.products[held.product].sessions[held.session];
  }

  void attempt(const Held& held, std::size_t chain) {
    const Chances& chances = all_.chances_[held.product];
    auto mark = static_cast<std::int32_t>(luck_[chain].below(million));
    int late = 0;
    while (late + 1 < static_cast<int>(chances.late.size()) &&
           mark >= chances.late[static_cast<std::size_t>(late)])
      mark -= chances.late[static_cast<std::size_t>(late++)];
    const bool failed = static_cast<std::int32_t>(luck_[chain].below(million)) < chances.failed;
    if (failed) failed_.push_back(attempts_.size());
    attempts_.push_back({held, chain, session_of(held).ready + late, failed});
  }

  void brew_again(std::size_t lost) {
    const Attempt gone = attempts_[lost];
    const Side& side = all_.sides_[gone.held.product];
    const std::vector<Session>& sessions = all_.problem_.products[gone.held.product].sessions;
    auto option =
        std::upper_bound(side.options.begin(), side.options.end(), gone.ready,
                         [&](int day, const Option& o) { return day < sessions[o.session].ready; });
    for (; option != side.options.end(); ++option) {
      const Session& session = sessions[option->session];
      if (session.ready > side.last_use) return;
      if (session.start <= gone.ready || is_rebrewed(gone.held.product, option->session)) continue;
      const Held again = best_of(gone.held, *option);
      if (again.units == 0) continue;
      attempt(again, gone.chain);
      draw_on(attempts_.size() - 1, 1);
      return;
    }
  }

  bool is_rebrewed(std::size_t product, std::size_t session) const {
    for (std::size_t i = all_.plan_.held.size(); i < attempts_.size(); ++i)
      if (attempts_[i].held.product == product && attempts_[i].held.session == session) return true;
    return false;
  }

  // The setup that brews most of what was lost, the cheapest of several; no units when none fits.
  Held best_of(const Held& lost, const Option& option) {
    Held best{lost.product, option.session, 0, 0};
    const Session& session = session_of(best);
    for (const std::size_t s : option.setups) {
      const Setup& setup = session.setups[s];
      const Units units = possible(session, setup, lost.units);
      if (units < best.units || units == 0) continue;
      if (units == best.units && setup.cost >= session.setups[best.setup].cost) continue;
      const bool fits = change(free_, setup, -1);
      change(free_, setup, 1);
      if (fits) best = {lost.product, option.session, s, units};
    }
    return best;
  }

  // As many units as were lost, within the setup's limits and the supply; 0: too few for it.
  Units possible(const Session& session, const Setup& setup, Units lost) const {
    const Units units = std::clamp(lost, setup.least, setup.most);
    if (session.supply < 0) return units;
    const std::int64_t left =
        supplies_[static_cast<std::size_t>(session.supply)] / session.supply_per_unit;
    return left < setup.least ? 0 : static_cast<Units>(std::min<std::int64_t>(units, left));
  }

  void draw_on(std::size_t attempt, int sign) {
    const Held& held = attempts_[attempt].held;
    const Session& session = session_of(held);
    change(free_, session.setups[held.setup], -sign);
    if (session.supply >= 0)
      supplies_[static_cast<std::size_t>(session.supply)] -=
          sign * session.supply_per_unit * held.units;
  }

  // On time in full, all of it?
  bool share_out(std::size_t product, ProductTally& tally) {
    const Side& side = all_.sides_[product];
    std::vector<Lot>& lots = lots_[product];
    std::stable_sort(lots.begin(), lots.end(),
                     [](const Lot& a, const Lot& b) { return a.ready < b.ready; });
    there_.clear();
    waiting_.clear();
    auto next = lots.begin();
    Units on_time = 0;
    std::size_t in_full = 0;
    for (const Ask& ask : side.asks) {
      for (; next != lots.end() && next->ready <= ask.collect; ++next) arrive(*next, tally);
      Units missing = ask.units;
      for (Lot& lot : there_)
        if (lot.use_by >= ask.last_use) move(lot.units, missing);
      DueTally& due = tally.due[ask.due];
      due.on_time += ask.units - missing;
      on_time += ask.units - missing;
      const bool full = missing == 0 && ask.short_units == 0;
      due.in_full += full ? 1 : 0;
      in_full += full ? 1 : 0;
      due.missed += ask.short_units;
      if (missing > 0) waiting_.push_back({&ask, missing});
    }
    for (; next != lots.end(); ++next) arrive(*next, tally);
    for (const Waiting& w : waiting_) tally.due[w.ask->due].missed += w.units;
    ++tally.units_on_time[on_time];
    const bool all = in_full == side.asks.size();
    tally.all_on_time += all ? 1 : 0;
    return all;
  }

  // A lot comes: first to those who wait, the rest is there for the next.
  void arrive(Lot lot, ProductTally& tally) {
    for (Waiting& w : waiting_)
      if (w.ask->last_use >= lot.ready && w.ask->last_use <= lot.use_by)
        tally.due[w.ask->due].late += move(lot.units, w.units);
    if (lot.units > 0)
      there_.insert(std::upper_bound(there_.begin(), there_.end(), lot, spoils_first), lot);
  }

  static Units move(Units& from, Units& to) {
    const Units units = std::min(from, to);
    from -= units;
    to -= units;
    return units;
  }

  struct Waiting {
    const Ask* ask;
    Units units;
  };

  const Seasons& all_;
  std::vector<std::vector<int>> free_;
  std::vector<std::int64_t> supplies_;
  std::vector<numerics::Stream> luck_;  // one for each planned lot, of its re-brews too
  std::vector<Attempt> attempts_;
  std::vector<std::size_t> failed_;  // attempts still to be brewed again
  std::vector<std::vector<Lot>> lots_;
  std::vector<Lot> there_;  // by use-by
  std::vector<Waiting> waiting_;
};

Seasons::Seasons(const Problem& problem, Plan plan, std::vector<Chances> chances)
    : problem_(problem),
      plan_(std::move(plan)),
      chances_(std::move(chances)),
      sides_(problem.products.size()),
      supplies_(problem.supplies) {
  for (const Resource& resource : problem.resources) free_.push_back(resource.capacity);
  std::vector<std::vector<bool>> held;
  for (const Product& product : problem.products) held.emplace_back(product.sessions.size(), false);
  for (const Held& h : plan_.held) {
    held[h.product][h.session] = true;
    const Session& session = problem.products[h.product].sessions[h.session];
    change(free_, session.setups[h.setup], -1);
    if (session.supply >= 0)
      supplies_[static_cast<std::size_t>(session.supply)] -= session.supply_per_unit * h.units;
  }
  for (std::size_t r = 0; r < sides_.size(); ++r) {
    add_asks(r);
    add_options(r, held[r]);
  }
}

void Seasons::add_asks(std::size_t r) {
  const Product& product = problem_.products[r];
  Side& side = sides_[r];
  const Served served = serve(product, lots_of(problem_, plan_, r));
  for (std::size_t d = 0; d < product.due.size(); ++d) {
    const Due& due = product.due[d];
    const Units short_units = served.short_units[d];
    side.asks.push_back({d, due.collect, due.last_use, due.units - short_units, short_units});
    side.last_use = std::max(side.last_use, due.last_use);
  }
  std::stable_sort(side.asks.begin(), side.asks.end(), [](const Ask& a, const Ask& b) {
    return a.collect != b.collect ? a.collect < b.collect : a.last_use < b.last_use;
  });
}

void Seasons::add_options(std::size_t r, const std::vector<bool>& held) {
  const std::vector<Session>& sessions = problem_.products[r].sessions;
  std::vector<Option>& options = sides_[r].options;
  for (std::size_t i = 0; i < sessions.size(); ++i) {
    if (held[i]) continue;
    Option option{i, {}};
    for (std::size_t s = 0; s < sessions[i].setups.size(); ++s) {
      if (change(free_, sessions[i].setups[s], -1)) option.setups.push_back(s);
      change(free_, sessions[i].setups[s], 1);
    }
    if (!option.setups.empty()) options.push_back(std::move(option));
  }
  std::stable_sort(options.begin(), options.end(), [&](const Option& a, const Option& b) {
    return sessions[a.session].ready < sessions[b.session].ready;
  });
}

Tally Seasons::run(std::uint64_t seed, std::int64_t first, std::int64_t count) const {
  Tally tally;
  for (const Product& product : problem_.products) {
    tally.products.emplace_back();
    tally.products.back().due.resize(product.due.size());
  }
  OneSeason one(*this);
  for (std::int64_t season = first; season < first + count; ++season) {
    one.play(seed, season);
    one.count(tally);
  }
  return tally;
}

std::vector<Attempt> Seasons::attempts(std::uint64_t seed, std::int64_t season) const {
  OneSeason one(*this);
  one.play(seed, season);
  return one.attempts();
}

void Tally::add(const Tally& more) {
  seasons += more.seasons;
  all_on_time += more.all_on_time;
  for (std::size_t r = 0; r < products.size(); ++r) {
    ProductTally& mine = products[r];
    const ProductTally& other = more.products[r];
    for (std::size_t d = 0; d < mine.due.size(); ++d) {
      mine.due[d].in_full += other.due[d].in_full;
      mine.due[d].on_time += other.due[d].on_time;
      mine.due[d].late += other.due[d].late;
      mine.due[d].missed += other.due[d].missed;
    }
    mine.all_on_time += other.all_on_time;
    for (const auto& [units, seasons_with] : other.units_on_time)
      mine.units_on_time[units] += seasons_with;
    mine.failed += other.failed;
    mine.rebrewed += other.rebrewed;
  }
}

double share_in_full(const Tally& tally, std::size_t product, std::size_t due) {
  return ratio(tally.products[product].due[due].in_full, tally.seasons);
}

double share_on_time(const Tally& tally, std::size_t product, std::size_t due) {
  const DueTally& of = tally.products[product].due[due];
  return ratio(of.on_time, asked(of));
}

double share_on_time(const Tally& tally, std::size_t product) {
  const DueTally of = summed(tally.products[product]);
  return ratio(of.on_time, asked(of));
}

double share_all_on_time(const Tally& tally, std::size_t product) {
  return ratio(tally.products[product].all_on_time, tally.seasons);
}

double share_all_on_time(const Tally& tally) { return ratio(tally.all_on_time, tally.seasons); }

double mean_on_time(const Tally& tally, std::size_t product) {
  return ratio(summed(tally.products[product]).on_time, tally.seasons);
}

double mean_missed(const Tally& tally, std::size_t product) {
  return ratio(summed(tally.products[product]).missed, tally.seasons);
}

double share_on_time_worst(const Tally& tally, std::size_t product) {
  const ProductTally& of = tally.products[product];
  const std::int64_t worst = (tally.seasons + 19) / 20;
  std::int64_t left = worst, units = 0;
  for (const auto& [on_time, seasons] : of.units_on_time) {
    const std::int64_t counted = std::min(left, seasons);
    units += counted * on_time;
    left -= counted;
  }
  return ratio(units, asked(summed(of)) / tally.seasons * worst);
}

}  // namespace wheyfield::lot_sizing
