// Sections in which a kit sets values in place of norma's own: limits, sizes of patients.
#pragma once

#include "kit/reader.hpp"
#include "kit/sections.hpp"

namespace norma::kit {

std::vector<Row> rows_of(const OwnValueSection& section);

void read_own_values(Reader& reader, const Yaml& map, const OwnValueSection& section,
                     std::vector<OwnValue>& target);

} // namespace norma::kit
