#include "core/base/bare.hpp"
