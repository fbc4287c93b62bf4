// Which kind of thing a field of the document is: for reader, writer and schema.
#pragma once

#include <type_traits>

#include "planfile/document.hpp"

namespace norma::planfile {

template <class T> struct IsList : std::false_type {};
template <class T> struct IsList<std::vector<T>> : std::true_type {};
template <class T> struct IsMaybe : std::false_type {};
template <class T> struct IsMaybe<std::optional<T>> : std::true_type {};
template <class T> struct IsId : std::false_type {};
template <IdList list> struct IsId<Id<list>> : std::true_type {
  static constexpr IdList which = list;
};

/// Has it fields?
template <class T>
concept Record = requires {
  T::type_name;
};

/// Is it short enough for a list of it to stand in one line?
template <class T>
inline constexpr bool is_short =
    std::is_same_v<T, Flat> || std::is_same_v<T, Solid> || std::is_same_v<T, Index> ||
    std::is_same_v<T, Tooth> || IsId<T>::value;

} // namespace norma::planfile
