// The program: it calls one of them.
#include "core/plan/called.hpp"

int main() {
  return qb::begins(1);
}
