// norma with the heavy libraries: the same commands, and PDF, and revisions of a repository.
#include "cli/commit.hpp"
#include "cli/program.hpp"
#include "press/pdf.hpp"
#include "press/repository.hpp"

int main(int argc, char** argv) {
  return norma::cli::program(argc, argv, norma::cli::commit(), norma::press::pdf,
                             norma::press::repository());
}
