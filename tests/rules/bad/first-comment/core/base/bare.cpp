constexpr int answer = 1;
