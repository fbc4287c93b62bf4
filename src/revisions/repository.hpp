// libgit2's objects with their ends, and what its errors mean to who reads them.
#pragma once

#include <git2.h>

#include <memory>
#include <string>
#include <variant>

#include "text/files.hpp"

namespace norma::revisions {

template <auto end> struct Ends {
  template <class T> void operator()(T* object) const { end(object); }
};
using Repository = std::unique_ptr<git_repository, Ends<git_repository_free>>;
using Object = std::unique_ptr<git_object, Ends<git_object_free>>;
using Tree = std::unique_ptr<git_tree, Ends<git_tree_free>>;
using Blob = std::unique_ptr<git_blob, Ends<git_blob_free>>;
using Odb = std::unique_ptr<git_odb, Ends<git_odb_free>>;
using Config = std::unique_ptr<git_config, Ends<git_config_free>>;

/// The repository that the current folder lies in, found as git finds it; or why there is none.
std::variant<Repository, text::ReadError> open_repository();

/// Its objects; those that libgit2 cannot cope with are refused from here on. To be asked for once.
std::variant<Odb, text::ReadError> objects_of(git_repository& repository);

/// The tree of a revision; or why there is none.
std::variant<git_oid, text::ReadError> tree_of(git_repository& repository, const std::string& rev);

/// What is said where an object cannot be read; `code` is what libgit2 returned.
text::ReadError not_to_be_had(git_repository& repository, int code);

} // namespace norma::revisions
