# cmake -DWORDS=assets/words.txt -DOUT=words_table.cpp -P embed_words.cmake: the word table as a C++ source.
file(READ ${WORDS} words)
string(FIND "${words}" ")words\"" closing)
if(NOT closing EQUAL -1)
  message(FATAL_ERROR "${WORDS} holds the end mark of the literal that it is put in")
endif()
file(WRITE ${OUT} "#include \"shell/words_table.h\"

namespace coatwright {

std::string_view words_text() {
  static constexpr std::string_view kText = R\"words(${words})words\";
  return kText;
}

const Words& word_table() {
  static const Words words = Words::parse(words_text());
  return words;
}

}  // namespace coatwright
")
