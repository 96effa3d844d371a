#include "tests/core/decision/linear_program.h"

#include <glpk.h>

namespace secondpull::test {
namespace {

constexpr double kTolerance = 1e-10;  // relative; the values compared must be right to far better than 1e-6

}  // namespace

void LinearProgram::Delete::operator()(glp_prob* program) const {
  glp_delete_prob(program);
}

LinearProgram::LinearProgram(Aim aim) : program_{glp_create_prob()} {
  glp_set_obj_dir(program_.get(), aim == Aim::smallest ? GLP_MIN : GLP_MAX);
}

std::size_t LinearProgram::add_variable(double in_objective, bool any_sign) {
  const int column = glp_add_cols(program_.get(), 1);
  glp_set_col_bnds(program_.get(), column, any_sign ? GLP_FR : GLP_LO, 0, 0);
  glp_set_obj_coef(program_.get(), column, in_objective);
  return static_cast<std::size_t>(column - 1);
}

std::size_t LinearProgram::add_row(const Terms& terms, int kind, double bound) {
  const int row = glp_add_rows(program_.get(), 1);
  std::vector<int> columns{0};  // GLPK counts from 1
  std::vector<double> factors{0};
  for (const auto& [variable, factor] : terms) {
    columns.push_back(static_cast<int>(variable) + 1);
    factors.push_back(factor);
  }
  glp_set_mat_row(program_.get(), row, static_cast<int>(terms.size()), columns.data(), factors.data());
  glp_set_row_bnds(program_.get(), row, kind, bound, bound);
  return static_cast<std::size_t>(row - 1);
}

std::size_t LinearProgram::add_at_most(const Terms& terms, double bound) {
  return add_row(terms, GLP_UP, bound);
}
std::size_t LinearProgram::add_at_least(const Terms& terms, double bound) {
  return add_row(terms, GLP_LO, bound);
}
std::size_t LinearProgram::add_equal(const Terms& terms, double bound) {
  return add_row(terms, GLP_FX, bound);
}

std::optional<LinearProgram::Solved> LinearProgram::solve() const {
  glp_smcp how;
  glp_init_smcp(&how);
  how.msg_lev = GLP_MSG_OFF;
  how.tol_bnd = kTolerance;
  how.tol_dj = kTolerance;
  if (glp_simplex(program_.get(), &how) != 0 || glp_get_status(program_.get()) != GLP_OPT)
    return std::nullopt;
  Solved solved{glp_get_obj_val(program_.get()), {}, {}};
  for (int column = 1; column <= glp_get_num_cols(program_.get()); ++column)
    solved.values.push_back(glp_get_col_prim(program_.get(), column));
  for (int row = 1; row <= glp_get_num_rows(program_.get()); ++row)
    solved.prices.push_back(glp_get_row_dual(program_.get(), row));
  return solved;
}

}  // namespace secondpull::test
