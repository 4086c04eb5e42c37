// Differential equations through CVODE (SUNDIALS), a solver with controlled steps by other hands:
// for tests and benches only. The equations are any function of (state, change, hours) over
// std::array.
#pragma once

#include <array>
#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <vector>

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <sunnonlinsol/sunnonlinsol_fixedpoint.h>

namespace wheyfield::testing {

enum class Multistep {
  adams,  // with fixed-point iterations: for equations that are not stiff
  bdf     // with Newton's method and a dense Jacobian by differences
};

// `relative`, `absolute`: the tolerances of a step. Stops the program when CVODE gives up.
template <std::size_t n, class Function>
class Cvode {
 public:
  using State = std::array<double, n>;

  Cvode(const Function& function, const State& begin, Multistep method, double relative,
        double absolute)
      : function_(function) {
    check(SUNContext_Create(nullptr, &context_));
    now_ = N_VNew_Serial(static_cast<sunindextype>(n), context_);
    put(begin);
    memory_ = CVodeCreate(method == Multistep::adams ? CV_ADAMS : CV_BDF, context_);
    check(CVodeInit(memory_, &Cvode::call, 0.0, now_));
    check(CVodeSStolerances(memory_, relative, absolute));
    check(CVodeSetUserData(memory_, this));
    check(CVodeSetMaxNumSteps(memory_, 1000000));
    if (method == Multistep::adams) {
      fixed_point_ = SUNNonlinSol_FixedPoint(now_, 0, context_);
      check(CVodeSetNonlinearSolver(memory_, fixed_point_));
    } else {
      matrix_ =
          SUNDenseMatrix(static_cast<sunindextype>(n), static_cast<sunindextype>(n), context_);
      linear_ = SUNLinSol_Dense(now_, matrix_, context_);
      check(CVodeSetLinearSolver(memory_, linear_, matrix_));
    }
  }
  ~Cvode() {
    CVodeFree(&memory_);
    if (fixed_point_) SUNNonlinSolFree(fixed_point_);
    if (linear_) SUNLinSolFree(linear_);
    if (matrix_) SUNMatDestroy(matrix_);
    N_VDestroy(now_);
    SUNContext_Free(&context_);
  }
  Cvode(const Cvode&) = delete;
  Cvode& operator=(const Cvode&) = delete;

  // Steps no longer than so: for air that changes its law at midnight.
  void longest_step(double hours) { check(CVodeSetMaxStep(memory_, hours)); }

  State at(double hours) {
    double reached = 0.0;
    check(CVode(memory_, hours, now_, &reached, CV_NORMAL));
    return got(now_);
  }
  long calls() const { return calls_; }

 private:
  static void check(int flag) {
    if (flag >= 0) return;
    std::fprintf(stderr, "CVODE: %d\n", flag);
    std::abort();
  }
  static int call(double hours, N_Vector now, N_Vector change, void* self) {
    auto& cvode = *static_cast<Cvode*>(self);
    ++cvode.calls_;
    State rate{};
    cvode.function_(got(now), rate, hours);
    double* out = N_VGetArrayPointer(change);
    for (std::size_t i = 0; i < n; ++i) out[i] = rate[i];
    return 0;
  }
  static State got(N_Vector vector) {
    State state{};
    const double* in = N_VGetArrayPointer(vector);
    for (std::size_t i = 0; i < n; ++i) state[i] = in[i];
    return state;
  }
  void put(const State& state) {
    double* out = N_VGetArrayPointer(now_);
    for (std::size_t i = 0; i < n; ++i) out[i] = state[i];
  }

  const Function& function_;
  SUNContext context_ = nullptr;
  N_Vector now_ = nullptr;
  void* memory_ = nullptr;
  SUNNonlinearSolver fixed_point_ = nullptr;
  SUNMatrix matrix_ = nullptr;
  SUNLinearSolver linear_ = nullptr;
  long calls_ = 0;
};

}  // namespace wheyfield::testing
