#include "tests/output/sheets/paper_reader.h"

#include <array>
#include <cstdio>
#include <fstream>

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

namespace firstoff::shop {

namespace {

struct Answer {
    int status = -1;
    std::string text;
};

// `command` with the bytes in a file behind it.
Answer ask(const std::string& command, const std::string& bytes, const std::string& after) {
    static int count = 0;
    const std::string path =
        testing::TempDir() + "firstoff_paper_" + std::to_string(::getpid()) + "_" + std::to_string(++count);
    std::ofstream(path, std::ios::binary) << bytes;
    Answer answer;
    FILE* pipe = popen((command + " '" + path + "' " + after).c_str(), "r");
    EXPECT_NE(pipe, nullptr);
    std::array<char, 4096> buffer{};
    while (const std::size_t got = std::fread(buffer.data(), 1, buffer.size(), pipe)) {
        answer.text.append(buffer.data(), got);
    }
    const int status = pclose(pipe);
    answer.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    std::remove(path.c_str());
    return answer;
}

}  // namespace

std::string pdfText(const std::string& pdf) {
    const Answer answer = ask("pdftotext -layout", pdf, "- 2>&1");
    EXPECT_EQ(answer.status, 0) << answer.text << "\nIs poppler-utils installed?";
    return answer.text;
}

int pdfPages(const std::string& pdf) {
    const Answer answer = ask("pdfinfo", pdf, "2>&1");
    EXPECT_EQ(answer.status, 0) << answer.text << "\nIs poppler-utils installed?";
    const std::size_t at = answer.text.find("Pages:");
    return at == std::string::npos ? 0 : std::stoi(answer.text.substr(at + 6));
}

std::string xmlComplaints(const std::string& text) {
    const Answer answer = ask("xmllint --noout --nonet", text, "2>&1");
    if (answer.status == 0) return {};
    return answer.text.empty() ? "xmllint could not be run; is libxml2-utils installed?" : answer.text;
}

}  // namespace firstoff::shop
