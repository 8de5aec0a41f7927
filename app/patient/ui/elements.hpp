// All elements of the toolkit, for screens.
// One include, so that a screen's own list stays short.
#pragma once

#include "app/patient/ui/breath.hpp"
#include "app/patient/ui/buttons.hpp"
#include "app/patient/ui/choices.hpp"
#include "app/patient/ui/code_picture.hpp"
#include "app/patient/ui/lists.hpp"
#include "app/patient/ui/pictures.hpp"
#include "app/patient/ui/quarter.hpp"
#include "app/patient/ui/rack.hpp"
#include "app/patient/ui/score.hpp"
#include "app/patient/ui/text.hpp"
#include "app/patient/ui/text_field.hpp"
#include "app/patient/ui/toolkit.hpp"
