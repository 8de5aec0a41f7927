// All elements of the kit, for screens.
// One include, so that a screen's own list stays short.
#pragma once

#include "app/patient/kit/breath.hpp"
#include "app/patient/kit/buttons.hpp"
#include "app/patient/kit/choices.hpp"
#include "app/patient/kit/code_picture.hpp"
#include "app/patient/kit/kit.hpp"
#include "app/patient/kit/lists.hpp"
#include "app/patient/kit/pictures.hpp"
#include "app/patient/kit/quarter.hpp"
#include "app/patient/kit/rack.hpp"
#include "app/patient/kit/score.hpp"
#include "app/patient/kit/text.hpp"
#include "app/patient/kit/text_field.hpp"
