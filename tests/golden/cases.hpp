// Golden cases: a case is a folder below tests/golden/<stage>/<subject>/ that holds its input, the
// command line (`cmd`) and the transcript it must give (`expected`). Subjects are the names of
// findings, or free names for cases that show something else.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace norma::test {

struct Case {
  std::filesystem::path folder;
  std::string subject;
  bool must_fail = false; // its folder's name starts with fail_
};

/// All cases of a stage, sorted by path.
std::vector<Case> cases_of(const std::string& stage);
std::vector<std::string> stages();

} // namespace norma::test
