// Pieces of a comparison as they are said: causes, facts, classes, the verdict.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "review/compare.hpp"

namespace norma::emit {

/// Of lists that are told, so many; how many more there are is said.
inline constexpr std::size_t most_told = 8;
/// Names, of many the first few.
diag::List names_list(const std::vector<diag::Said>& all);

/// What a kind of change is called.
diag::Said called(review::Kind kind);
/// What a class is called.
diag::Said class_said(review::Class c);
diag::Said meaning_said(review::Class c);
/// The verdict, as it stands in the first line.
diag::Said verdict_said(const review::Comparison& all);

/// Its name, and for whom it is where it speaks of several groups.
diag::Said protocol_label(const review::ProtocolChange& p);
std::string_view protocol_name(const review::ProtocolChange& p);
/// A view's name, that of before with it where it was renamed.
diag::Said view_said(const review::ProtocolChange& protocol, const review::ViewChange& view);

/// `what`, and in which protocol, where several changed.
diag::Said in_protocol(const review::Comparison& all, const review::ProtocolChange& p,
                       const diag::Said& what);

/// What is asked otherwise, of one kind.
diag::Said asked_said(review::Kind kind, const std::vector<review::Asked>& all);
diag::List asked_list(const std::vector<review::Asked>& all);
diag::Said fact_said(const review::Differs& d);
/// How pictures of another scale or hold come together, if at all.
std::vector<diag::Said> bridge(const review::Entry& entry, const review::Entry::AtKit& kit);

} // namespace norma::emit
