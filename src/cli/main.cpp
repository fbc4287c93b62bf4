#include "cli/commit.hpp"
#include "cli/program.hpp"

int main(int argc, char** argv) { return norma::cli::program(argc, argv, norma::cli::commit()); }
