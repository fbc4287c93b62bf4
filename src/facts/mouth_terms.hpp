// Words for mouths that are unlike: what varies from one to another, and what a view breaks in one.
#pragma once

#include "facts/fact.hpp"
#include "facts/phrases.hpp"
#include "mouths/shares.hpp"

namespace norma::facts {

template <> struct TermsOf<mouths::Varies> {
  using V = mouths::Varies;
  static constexpr std::pair<V, const diag::Row*> all[] = {
      {V::upper_canines, &phrase::varies_upper_canines},
      {V::lower_canines, &phrase::varies_lower_canines},
      {V::upper_molars, &phrase::varies_upper_molars},
      {V::lower_molars, &phrase::varies_lower_molars},
      {V::tooth_size, &phrase::varies_tooth_size},
      {V::overjet, &phrase::varies_overjet},
      {V::overbite, &phrase::varies_overbite},
      {V::palate, &phrase::varies_palate},
      {V::opening, &phrase::varies_opening},
      {V::corner_aside, &phrase::varies_corner_aside},
      {V::corner_back, &phrase::varies_corner_back}};
};

template <> struct TermsOf<mouths::Promise> {
  using P = mouths::Promise;
  static constexpr std::pair<P, const diag::Row*> all[] = {
      {P::placed, &phrase::broken_placed}, {P::fits, &phrase::broken_fits},
      {P::framed, &phrase::broken_framed}, {P::turned, &phrase::broken_turned},
      {P::seen, &phrase::broken_seen},     {P::sharp, &phrase::broken_sharp},
      {P::lit, &phrase::broken_lit}};
};

} // namespace norma::facts
