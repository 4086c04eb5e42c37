#include "numerics/linear_program.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace wheyfield::numerics {
namespace {

using Relation = LinearProgram::Relation;
using Status = LinearSolution::Status;

constexpr double tiny = 1e-9;    // a scaled factor or cost that counts as 0
constexpr double pivots = 1e-7;  // the least factor that is divided by

// Columns: those of the programme measured from their lower bounds, then for each row its slack and
// its artificial. Each row reads: sum of factors x unknowns = side, side >= 0 at the start.
class Table {
 public:
  explicit Table(const LinearProgram& programme);
  LinearSolution solved();

 private:
  double& at(std::size_t row, std::size_t column) { return cells_[row * width_ + column]; }
  std::size_t slack(std::size_t row) const { return columns_ + row; }
  std::size_t artificial(std::size_t row) const { return columns_ + rows_ + row; }
  bool is_basic(std::size_t column) const {
    return std::find(basis_.begin(), basis_.end(), column) != basis_.end();
  }

  void put_row(std::size_t row, const LinearProgram::Row& given);
  void begin(const std::vector<double>& costs);
  std::optional<std::size_t> entering() const;
  bool step(std::size_t column);  // false: nothing stops it
  void pivot(std::size_t row, std::size_t column);
  bool walk();  // false: unbounded
  double value_of(const std::vector<double>& costs) const;
  double value_at(std::size_t column) const { return at_upper_[column] ? room_[column] : 0.0; }
  double largest_side() const;
  void close_artificials();

  const LinearProgram& programme_;
  std::size_t columns_, rows_, width_;
  std::vector<double> cells_;
  std::vector<double> side_;     // values of the basic unknowns
  std::vector<double> reduced_;  // of the costs
  std::vector<double> room_;     // upper - lower of every column
  std::vector<bool> at_upper_;   // of the columns that are not basic
  std::vector<std::size_t> basis_;
  std::vector<double> scale_;  // what each row was multiplied by, its sign with it
};

Table::Table(const LinearProgram& programme)
    : programme_(programme),
      columns_(programme.costs.size()),
      rows_(programme.rows.size()),
      width_(columns_ + 2 * rows_),
      cells_(rows_ * width_, 0.0),
      side_(rows_),
      room_(width_, no_bound),
      at_upper_(width_, false),
      basis_(rows_),
      scale_(rows_) {
  for (std::size_t j = 0; j < columns_; ++j) room_[j] = programme.upper[j] - programme.lower[j];
  for (std::size_t i = 0; i < rows_; ++i) put_row(i, programme.rows[i]);
}

void Table::put_row(std::size_t row, const LinearProgram::Row& given) {
  double largest = 0.0, side = given.side;
  for (std::size_t j = 0; j < columns_; ++j) {
    largest = std::max(largest, std::fabs(given.factors[j]));
    side -= given.factors[j] * programme_.lower[j];
  }
  scale_[row] = (side < 0.0 ? -1.0 : 1.0) / (largest > 0.0 ? largest : 1.0);
  for (std::size_t j = 0; j < columns_; ++j) at(row, j) = given.factors[j] * scale_[row];
  side_[row] = side * scale_[row];
  const double sign =
      (given.relation == Relation::at_least ? -1.0 : 1.0) * (scale_[row] < 0.0 ? -1.0 : 1.0);
  at(row, slack(row)) = sign;
  if (given.relation == Relation::equal) room_[slack(row)] = 0.0;
  at(row, artificial(row)) = 1.0;
  basis_[row] = given.relation != Relation::equal && sign > 0.0 ? slack(row) : artificial(row);
}

// The reduced costs at the present basis.
void Table::begin(const std::vector<double>& costs) {
  reduced_ = costs;
  for (std::size_t i = 0; i < rows_; ++i) {
    const double cost = costs[basis_[i]];
    if (cost == 0.0) continue;
    for (std::size_t j = 0; j < width_; ++j) reduced_[j] -= cost * at(i, j);
  }
}

// Bland: the first column that helps.
std::optional<std::size_t> Table::entering() const {
  for (std::size_t j = 0; j < width_; ++j) {
    if (room_[j] <= 0.0 || is_basic(j)) continue;
    if (at_upper_[j] ? reduced_[j] > tiny : reduced_[j] < -tiny) return j;
  }
  return std::nullopt;
}

bool Table::step(std::size_t column) {
  const double way = at_upper_[column] ? -1.0 : 1.0;
  double most = room_[column];
  std::optional<std::size_t> leaving;
  bool to_upper = false;
  for (std::size_t i = 0; i < rows_; ++i) {
    const double fall = at(i, column) * way;  // how fast the basic unknown sinks
    if (std::fabs(fall) < pivots) continue;
    const double room = room_[basis_[i]];
    const double way_left = fall > 0.0 ? side_[i] / fall : (room - side_[i]) / -fall;
    const double limit = std::max(0.0, way_left);
    const bool ties = leaving && limit <= most && basis_[i] < basis_[*leaving];
    if (limit < most || ties) {
      most = limit;
      leaving = i;
      to_upper = fall < 0.0;
    }
  }
  if (most == no_bound) return false;
  for (std::size_t i = 0; i < rows_; ++i) side_[i] -= at(i, column) * way * most;
  if (!leaving) {
    at_upper_[column] = !at_upper_[column];
    return true;
  }
  const double value = value_at(column) + way * most;
  at_upper_[basis_[*leaving]] = to_upper;
  at_upper_[column] = false;
  pivot(*leaving, column);
  side_[*leaving] = value;
  return true;
}

void Table::pivot(std::size_t row, std::size_t column) {
  const double divisor = at(row, column);
  for (std::size_t j = 0; j < width_; ++j) at(row, j) /= divisor;
  for (std::size_t i = 0; i < rows_; ++i) {
    const double factor = at(i, column);
    if (i == row || factor == 0.0) continue;
    for (std::size_t j = 0; j < width_; ++j) at(i, j) -= factor * at(row, j);
  }
  const double factor = reduced_[column];
  for (std::size_t j = 0; j < width_; ++j) reduced_[j] -= factor * at(row, j);
  basis_[row] = column;
}

bool Table::walk() {
  while (const auto column = entering())
    if (!step(*column)) return false;
  return true;
}

double Table::value_of(const std::vector<double>& costs) const {
  double sum = 0.0;
  for (std::size_t j = 0; j < width_; ++j)
    if (!is_basic(j) && at_upper_[j]) sum += costs[j] * room_[j];
  for (std::size_t i = 0; i < rows_; ++i) sum += costs[basis_[i]] * side_[i];
  return sum;
}

double Table::largest_side() const {
  double largest = 1.0;
  for (const double side : side_) largest = std::max(largest, std::fabs(side));
  return largest;
}

void Table::close_artificials() {
  for (std::size_t i = 0; i < rows_; ++i) room_[artificial(i)] = 0.0;
}

LinearSolution Table::solved() {
  LinearSolution solution;
  std::vector<double> costs(width_, 0.0);
  for (std::size_t i = 0; i < rows_; ++i) costs[artificial(i)] = 1.0;
  const double room = tiny * largest_side();
  begin(costs);
  walk();
  if (value_of(costs) > room * static_cast<double>(rows_ + 1)) return solution;
  close_artificials();
  double dearest = 0.0;
  for (const double cost : programme_.costs) dearest = std::max(dearest, std::fabs(cost));
  if (dearest == 0.0) dearest = 1.0;
  std::fill(costs.begin(), costs.end(), 0.0);
  for (std::size_t j = 0; j < columns_; ++j) costs[j] = programme_.costs[j] / dearest;
  begin(costs);
  if (!walk()) {
    solution.status = Status::unbounded;
    return solution;
  }
  solution.status = Status::optimal;
  solution.values = programme_.lower;
  for (std::size_t j = 0; j < columns_; ++j)
    if (!is_basic(j)) solution.values[j] += value_at(j);
  for (std::size_t i = 0; i < rows_; ++i) {
    if (basis_[i] < columns_) solution.values[basis_[i]] += side_[i];
    solution.duals.push_back(-reduced_[artificial(i)] * dearest * scale_[i]);
  }
  for (std::size_t j = 0; j < columns_; ++j)
    solution.objective += programme_.costs[j] * solution.values[j];
  return solution;
}

}  // namespace

std::size_t LinearProgram::add_column(double cost, double least, double most) {
  costs.push_back(cost);
  lower.push_back(least);
  upper.push_back(most);
  return costs.size() - 1;
}

void LinearProgram::add_row(std::vector<double> factors, Relation relation, double side) {
  rows.push_back({std::move(factors), relation, side});
}

LinearSolution solve(const LinearProgram& programme) { return Table(programme).solved(); }

}  // namespace wheyfield::numerics
