#include "core/base/folding.h"

#include <algorithm>

#include "core/base/utf8.h"

namespace coatwright {
namespace {

// The tables hold what Unicode 14 says of the Basic Multilingual Plane (canonical decompositions and
// full case folding applied until nothing changes, and the compatibility forms of full and half
// width); tests/python/folding_test.py holds them against Python's own copy of that data. What has no
// decomposition there and is read as a plain letter with a stroke or hook all the same (ø, ł, æ) is
// common practice, no source.

// What is passed over: accents and points of every script (marks whose combining class is 200 or
// more, or 10 to 36: those of Hebrew, Arabic and Syriac), the drawn-out Arabic stroke, and what joins,
// parts or colours without being seen. Vowel signs and voicing marks stay: they are letters.
constexpr char16_t kIgnored[][2] = {
    {0x00AD, 0x00AD}, {0x0300, 0x0333}, {0x0339, 0x034E}, {0x0350, 0x036F}, {0x0483, 0x0487},
    {0x0591, 0x05BD}, {0x05BF, 0x05BF}, {0x05C1, 0x05C2}, {0x05C4, 0x05C5}, {0x05C7, 0x05C7},
    {0x0610, 0x061A}, {0x0640, 0x0640}, {0x064B, 0x065F}, {0x0670, 0x0670}, {0x06D6, 0x06DC},
    {0x06DF, 0x06E4}, {0x06E7, 0x06E8}, {0x06EA, 0x06ED}, {0x0711, 0x0711}, {0x0730, 0x074A},
    {0x07EB, 0x07F3}, {0x07FD, 0x07FD}, {0x0816, 0x0819}, {0x081B, 0x0823}, {0x0825, 0x0827},
    {0x0829, 0x082D}, {0x0859, 0x085B}, {0x0898, 0x089F}, {0x08CA, 0x08E1}, {0x08E3, 0x08FF},
    {0x0951, 0x0954}, {0x09FE, 0x09FE}, {0x0F18, 0x0F19}, {0x0F35, 0x0F35}, {0x0F37, 0x0F37},
    {0x0F39, 0x0F39}, {0x0F82, 0x0F83}, {0x0F86, 0x0F87}, {0x0FC6, 0x0FC6}, {0x108D, 0x108D},
    {0x135D, 0x135F}, {0x17DD, 0x17DD}, {0x18A9, 0x18A9}, {0x1939, 0x193B}, {0x1A17, 0x1A18},
    {0x1A75, 0x1A7C}, {0x1A7F, 0x1A7F}, {0x1AB0, 0x1ABD}, {0x1ABF, 0x1ACE}, {0x1B6B, 0x1B73},
    {0x1CD0, 0x1CD2}, {0x1CD5, 0x1CE0}, {0x1CED, 0x1CED}, {0x1CF4, 0x1CF4}, {0x1CF8, 0x1CF9},
    {0x1DC0, 0x1DFF}, {0x200B, 0x200D}, {0x20D0, 0x20D1}, {0x20D4, 0x20D7}, {0x20DB, 0x20DC},
    {0x20E1, 0x20E1}, {0x20E7, 0x20E9}, {0x20EC, 0x20F0}, {0x2CEF, 0x2CF1}, {0x2DE0, 0x2DFF},
    {0x302A, 0x302D}, {0xA66F, 0xA66F}, {0xA674, 0xA67D}, {0xA69E, 0xA69F}, {0xA6F0, 0xA6F1},
    {0xA8E0, 0xA8F1}, {0xA92B, 0xA92D}, {0xAAB0, 0xAAB0}, {0xAAB2, 0xAAB4}, {0xAAB7, 0xAAB8},
    {0xAABE, 0xAABF}, {0xAAC1, 0xAAC1}, {0xFB1E, 0xFB1E}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}};

// Folded letters of a stretch of code points, one each; a space: as it is, or among kOthers.
struct Block {
  char32_t first;
  std::u16string_view folded;
};
// clang-format off
constexpr Block kBlocks[] = {
    {0x00C0,
     u"aaaaaa ceeeeiiiidnooooo ouuuuy  aaaaaa ceeeeiiiidnooooo ouuuuy yaaaaaaccccccccddddeeeeeeeeee"
     u"gggggggghhhhiiiiiiiiiiĳ jjkkkllllllllllnnnnnnnnnoooooo  rrrrrrssssssssttttttuuuuuuuuuuuuwwyy"
     u"yzzzzzzs ɓƃ ƅ ɔƈ ɖɗƌ  ǝəɛƒ ɠɣ ɩɨƙ   ɯɲ ɵooƣ ƥ ʀƨ ʃ  ƭ ʈuuʊʋƴ ƶ ʒƹ   ƽ       ǆǆ ǉǉ ǌǌ aaiioou"
     u"uuuuuuuuu aaaa  ǥ ggkkooooʒʒjǳǳ ggƕƿnnaa  ooaaaaeeeeiiiioooorrrruuuussttȝ hhƞ ȣ ȥ aaeeoooooo"
     u"ooyy      ⱥȼ ƚⱦ  ɂ ƀʉʌɇ ɉ ɋ ɍ ɏ "},
    {0x0370,
     u"ͱ ͳ ʹ ͷ       ;ϳ     ¨α·εηι ο υωιαβγδεζηθικλμνξοπρ στυφχψωιυαεηιυ                 σ       ιυ"
     u"ουωϗβθ ϒϒφπ ϙ ϛ ϝ ϟ ϡ ϣ ϥ ϧ ϩ ϫ ϭ ϯ κρ  θε ϸ ϲϻ  ͻͼͽееђгєѕііјљњћкиуџабвгдежзииклмнопрстуфхцч"
     u"шщъыьэюя         и                      ее г   і    киу ѡ ѣ ѥ ѧ ѩ ѫ ѭ ѯ ѱ ѳ ѵ ѵѵѹ ѻ ѽ ѿ ҁ   "
     u"      ҋ ҍ ҏ ґ ғ ҕ җ ҙ қ ҝ ҟ ҡ ң ҥ ҧ ҩ ҫ ҭ ү ұ ҳ ҵ ҷ ҹ һ ҽ ҿ ӏжжӄ ӆ ӈ ӊ ӌ ӎ  ааааӕ ееә әәжжзз"
     u"ӡ ииииооө өөээууууууччӷ ыыӻ ӽ ӿ ԁ ԃ ԅ ԇ ԉ ԋ ԍ ԏ ԑ ԓ ԕ ԗ ԙ ԛ ԝ ԟ ԡ ԣ ԥ ԧ ԩ ԫ ԭ ԯ  աբգդեզէըթժի"
     u"լխծկհձղճմյնշոչպջռսվտրցւփքօֆ                                                "},
    {0x1E00,
     u"aabbbbbbccddddddddddeeeeeeeeeeffgghhhhhhhhhhiiiikkkkkkllllllllmmmmmmnnnnnnnnoooooooopppprrrr"
     u"rrrrssssssssssttttttttuuuuuuuuuuvvvvwwwwwwwwwwxxxxyyzzzzzzhtwy s    aaaaaaaaaaaaaaaaaaaaaaaa"
     u"eeeeeeeeeeeeeeeeiiiioooooooooooooooooooooooouuuuuuuuuuuuuuyyyyyyyyỻ ỽ ỿ ααααααααααααααααεεεε"
     u"εε  εεεεεε  ηηηηηηηηηηηηηηηηιιιιιιιιιιιιιιιιοοοοοο  οοοοοο  υυυυυυυυ υ υ υ υωωωωωωωωωωωωωωωω"
     u"ααεεηηιιοουυωω  ααααααααααααααααηηηηηηηηηηηηηηηηωωωωωωωωωωωωωωωωααααα ααααααα ι  ¨ηηη ηηεεηη"
     u"η᾿᾿᾿ιιιι  ιιιιιι ῾῾῾υυυυρρυυυυυυρ¨¨`  ωωω ωωοοωωω"},
    {0xFF01,
     u"!\"#$%&'()*+,-./0123456789:;<=>?@abcdefghijklmnopqrstuvwxyz[\\]^_`abcdefghijklmnopqrstuvwxyz"
     u"{|}~⦅⦆。「」、・ヲァィゥェォャュョッーアイウエオカキクケコサシスセソタチツテトナニヌネノハヒ"
     u"フヘホマミムメモヤユヨラリルレロワン\u3099\u309A\u1160\u1100\u1101\u11AA\u1102\u11AC\u11AD"
     u"\u1103\u1104\u1105\u11B0\u11B1\u11B2\u11B3\u11B4\u11B5\u111A\u1106\u1107\u1108\u1121\u1109"
     u"\u110A\u110B\u110C\u110D\u110E\u110F\u1110\u1111\u1112   \u1161\u1162\u1163\u1164\u1165"
     u"\u1166  \u1167\u1168\u1169\u116A\u116B\u116C  \u116D\u116E\u116F\u1170\u1171\u1172  \u1173"
     u"\u1174\u1175"}};

// A character and what it is folded to, then a space.
constexpr std::u16string_view kOthers =
    u"µμ Æae Þth ßss æae þth Œoe œoe Ǣae ǣae Ǽae ǽae ʼ' ևեւ \u0622\u0627 \u0623\u0627 "
    u"\u0624\u0648 \u0625\u0627 \u0626\u064A \u06C0\u06D5 \u06C2\u06C1 \u06D3\u06D2 ऩन\u093C "
    u"ऱर\u093C ऴळ\u093C क़क\u093C ख़ख\u093C ग़ग\u093C ज़ज\u093C ड़ड\u093C ढ़ढ\u093C फ़फ\u093C य़य\u093C "
    u"\u09CB\u09C7\u09BE \u09CC\u09C7\u09D7 ড়ড\u09BC ঢ়ঢ\u09BC য়য\u09BC ਲ਼ਲ\u0A3C ਸ਼ਸ\u0A3C ਖ਼ਖ\u0A3C "
    u"ਗ਼ਗ\u0A3C ਜ਼ਜ\u0A3C ਫ਼ਫ\u0A3C \u0B48\u0B47\u0B56 \u0B4B\u0B47\u0B3E \u0B4C\u0B47\u0B57 "
    u"ଡ଼ଡ\u0B3C ଢ଼ଢ\u0B3C ஔஒ\u0BD7 \u0BCA\u0BC6\u0BBE \u0BCB\u0BC7\u0BBE \u0BCC\u0BC6\u0BD7 "
    u"\u0C48\u0C46\u0C56 \u0CC0\u0CBF\u0CD5 \u0CC7\u0CC6\u0CD5 \u0CC8\u0CC6\u0CD6 "
    u"\u0CCA\u0CC6\u0CC2 \u0CCB\u0CC6\u0CC2\u0CD5 \u0D4A\u0D46\u0D3E \u0D4B\u0D47\u0D3E "
    u"\u0D4C\u0D46\u0D57 \u0DDA\u0DD9\u0DCA \u0DDC\u0DD9\u0DCF \u0DDD\u0DD9\u0DCF\u0DCA "
    u"\u0DDE\u0DD9\u0DDF གྷག\u0FB7 ཌྷཌ\u0FB7 དྷད\u0FB7 བྷབ\u0FB7 ཛྷཛ\u0FB7 ཀྵཀ\u0FB5 \u0F73\u0F71\u0F72 "
    u"\u0F75\u0F71\u0F74 \u0F76\u0FB2\u0F80 \u0F78\u0FB3\u0F80 \u0F81\u0F71\u0F80 "
    u"\u0F93\u0F92\u0FB7 \u0F9D\u0F9C\u0FB7 \u0FA2\u0FA1\u0FB7 \u0FA7\u0FA6\u0FB7 "
    u"\u0FAC\u0FAB\u0FB7 \u0FB9\u0F90\u0FB5 ဦဥ\u102E ᬆᬅ\u1B35 ᬈᬇ\u1B35 ᬊᬉ\u1B35 ᬌᬋ\u1B35 ᬎᬍ\u1B35 "
    u"ᬒᬑ\u1B35 \u1B3B\u1B3A\u1B35 \u1B3D\u1B3C\u1B35 \u1B40\u1B3E\u1B35 \u1B41\u1B3F\u1B35 "
    u"\u1B43\u1B42\u1B35 ẚaʾ ẞss ‘' ’' Ωω Kk Åa がか\u3099 ぎき\u3099 ぐく\u3099 げけ\u3099 "
    u"ごこ\u3099 ざさ\u3099 じし\u3099 ずす\u3099 ぜせ\u3099 ぞそ\u3099 だた\u3099 ぢち\u3099 "
    u"づつ\u3099 でて\u3099 どと\u3099 ばは\u3099 ぱは\u309A びひ\u3099 ぴひ\u309A ぶふ\u3099 "
    u"ぷふ\u309A べへ\u3099 ぺへ\u309A ぼほ\u3099 ぽほ\u309A ゔう\u3099 ゞゝ\u3099 ガカ\u3099 "
    u"ギキ\u3099 グク\u3099 ゲケ\u3099 ゴコ\u3099 ザサ\u3099 ジシ\u3099 ズス\u3099 ゼセ\u3099 "
    u"ゾソ\u3099 ダタ\u3099 ヂチ\u3099 ヅツ\u3099 デテ\u3099 ドト\u3099 バハ\u3099 パハ\u309A "
    u"ビヒ\u3099 ピヒ\u309A ブフ\u3099 プフ\u309A ベヘ\u3099 ペヘ\u309A ボホ\u3099 ポホ\u309A "
    u"ヴウ\u3099 ヷワ\u3099 ヸヰ\u3099 ヹヱ\u3099 ヺヲ\u3099 ヾヽ\u3099 ﬀff ﬁfi ﬂfl ﬃffi ﬄffl ﬅst "
    u"ﬆst ﬓմն ﬔմե ﬕմի ﬖվն ﬗմխ \uFB1D\u05D9 \uFB1F\u05F2 \uFB2A\u05E9 \uFB2B\u05E9 \uFB2C\u05E9 "
    u"\uFB2D\u05E9 \uFB2E\u05D0 \uFB2F\u05D0 \uFB30\u05D0 \uFB31\u05D1 \uFB32\u05D2 \uFB33\u05D3 "
    u"\uFB34\u05D4 \uFB35\u05D5 \uFB36\u05D6 \uFB38\u05D8 \uFB39\u05D9 \uFB3A\u05DA \uFB3B\u05DB "
    u"\uFB3C\u05DC \uFB3E\u05DE \uFB40\u05E0 \uFB41\u05E1 \uFB43\u05E3 \uFB44\u05E4 \uFB46\u05E6 "
    u"\uFB47\u05E7 \uFB48\u05E8 \uFB49\u05E9 \uFB4A\u05EA \uFB4B\u05D5 \uFB4C\u05D1 \uFB4D\u05DB "
    u"\uFB4E\u05E4 ";
// clang-format on

// Capitals whose small letters stand at one distance.
struct Series {
  char32_t first, last;
  int away;
};
constexpr Series kSeries[] = {{0x10A0, 0x10C5, 7264},
                              {0x13F8, 0x13FD, -8},
                              {0x1C90, 0x1CBA, -3008},
                              {0x2C00, 0x2C2F, 48},
                              {0xAB70, 0xABBF, -38864}};

bool is_ignored(char32_t c) {
  const auto* range = std::find_if(std::begin(kIgnored), std::end(kIgnored),
                                   [&](const auto& r) { return c <= r[1]; });
  return range != std::end(kIgnored) && c >= (*range)[0];
}

// The letters of a Korean syllable, as Unicode's chapter 3.12 takes it apart.
void append_syllable(std::string& out, char32_t syllable) {
  constexpr char32_t kLead = 0x1100, kVowel = 0x1161, kTrail = 0x11A7;
  constexpr char32_t kVowels = 21, kTrails = 28;
  append_utf8(out, kLead + syllable / (kVowels * kTrails));
  append_utf8(out, kVowel + syllable / kTrails % kVowels);
  if (syllable % kTrails != 0) append_utf8(out, kTrail + syllable % kTrails);
}

void append_folded(std::string& out, char32_t c) {
  constexpr char32_t kFirstSyllable = 0xAC00, kSyllables = 11172;
  if (is_ignored(c)) return;
  if (c - kFirstSyllable < kSyllables) return append_syllable(out, c - kFirstSyllable);
  for (const Block& block : kBlocks) {
    const char32_t at = c - block.first;
    if (at < block.folded.size() && block.folded[at] != u' ') {
      return append_utf8(out, block.folded[at]);
    }
  }
  for (const Series& series : kSeries) {
    if (c >= series.first && c <= series.last) {
      return append_utf8(out, c + static_cast<char32_t>(series.away));
    }
  }
  for (size_t at = 0; c <= 0xFFFF && at < kOthers.size();) {
    const size_t end = kOthers.find(u' ', at);
    if (kOthers[at] == c) {
      for (const char16_t letter : kOthers.substr(at + 1, end - at - 1)) append_utf8(out, letter);
      return;
    }
    at = end + 1;
  }
  append_utf8(out, c);
}

}  // namespace

std::string folded(std::string_view text) {
  std::string out;
  for (size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    if (c.point >= U'A' && c.point <= U'Z') {
      out += static_cast<char>(c.point - U'A' + U'a');
    } else if (c.point < 0x80 || c.point == kNoCharacter) {
      out += text.substr(at, c.bytes);
    } else {
      append_folded(out, c.point);
    }
    at += c.bytes;
  }
  return out;
}

}  // namespace coatwright
