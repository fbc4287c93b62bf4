// A comparison in words: the verdict first, then what changed, gravest first.
#pragma once

#include "emit/document.hpp"
#include "review/compare.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

Document comparison(const review::Comparison& all, const wording::Language& in);
/// The same as a page for a browser, with drawings of both sides of each view that changed.
std::string comparison_html(const review::Comparison& all, const wording::Language& in);
/// Which protocols a change reaches: those that changed themselves, then those that build on them.
Document affected(const review::Comparison& all, const wording::Language& in);
/// The same as JSON by docs/schema/comparison.schema.json.
std::string comparison_json(const review::Comparison& all);

} // namespace norma::emit
