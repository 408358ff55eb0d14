// Has nothing of its own: with this file the headers are read that all tests share (tests/CMakeLists.txt).
