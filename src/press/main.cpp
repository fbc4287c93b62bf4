// norma with a printing press: the same commands, and PDF.
#include "cli/program.hpp"
#include "press/pdf.hpp"

int main(int argc, char** argv) { return norma::cli::program(argc, argv, norma::press::pdf); }
