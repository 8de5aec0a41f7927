// Lines that say themselves how much they take.
// Bad on purpose: tests/rules/run must find it.
void draw_line(toolkit& k, std::string& words) {
  (void)text_field(k, "words", {"Words", "", "", text_kind::plain, 200}, words);
  field_view field;
  field.longest = 60;
}
