// Names that would do harm: no page of the student's report is broken by them, and a browser does nothing for
// them.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <arpa/inet.h>
#include <fcntl.h>
#include <sys/socket.h>
#include <unistd.h>

#include <filesystem>

#include "analysis/report/student_html.h"
#include "tests/report/student_papers.h"

using namespace footing;
using namespace footing::test;

namespace {

constexpr const char* python = "/usr/bin/python3";
constexpr const char* chromium = "/usr/bin/chromium";

/// A socket that listens and counts who called.
class Ear {
  public:
    Ear() : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_NONBLOCK, 0)) {
        sockaddr_in at{};
        at.sin_family = AF_INET;
        at.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        REQUIRE(::bind(socket_, reinterpret_cast<sockaddr*>(&at), sizeof at) == 0);
        REQUIRE(::listen(socket_, 16) == 0);
        socklen_t size = sizeof at;
        ::getsockname(socket_, reinterpret_cast<sockaddr*>(&at), &size);
        port_ = ntohs(at.sin_port);
    }
    Ear(const Ear&) = delete;
    Ear& operator=(const Ear&) = delete;
    ~Ear() { ::close(socket_); }
    [[nodiscard]] std::string url() const { return fmt::format("http://127.0.0.1:{}/x", port_); }
    [[nodiscard]] int calls() const {
        int count = 0;
        for (int one = ::accept(socket_, nullptr, nullptr); one >= 0;
             one = ::accept(socket_, nullptr, nullptr)) {
            ::close(one);
            ++count;
        }
        return count;
    }

  private:
    int socket_;
    int port_ = 0;
};

}  // namespace

TEST_CASE("200 hostile names: no script, no element, no attribute of theirs; every page of paper whole") {
    const std::vector<std::string> names = sample::two_hundred_hostile_names("http://127.0.0.1:9/x");
    REQUIRE(names.size() == 200);
    const ScratchFolder folder;
    std::vector<std::string> check{
        python, "-c",
        "import sys,xml.etree.ElementTree as E\n"
        "for path in sys.argv[1:]:\n"
        "    root=E.parse(path).getroot()\n"
        "    tags={e.tag for e in root.iter()}\n"
        "    assert not tags & {'script','img','iframe','link','base','object','video','form',"
        "'input','a','math'}, tags\n"
        "    assert [e.tag for e in root.iter()].count('h1')==1\n"
        "    assert [e.tag for e in root.iter()].count('style')==1\n"
        "    for e in root.iter():\n"
        "        assert not any(k.lower().startswith('on') or k.lower() in ('src','href') for k "
        "in e.attrib), e.attrib\n"
        "        if e.tag=='svg': assert e.get('role')=='img' and e.find('title').text and "
        "e.find('desc').text\n"
        "        if e.tag=='th': assert e.get('scope')\n"};
    std::size_t number = 0;
    for (const StudentReport& report : sample::hostile_students(names)) {
        const std::string path = folder / fmt::format("{}.html", number++);
        write_file(path, student_html(report));
        check.push_back(path);
        write_file(folder / "r.pdf", pdf_of(report));
        if (!have(qpdf)) continue;
        const auto sound = run_program({qpdf, "--check", folder / "r.pdf"});
        CAPTURE(sound.err);
        CHECK(sound.exit_code == 0);
    }
    const auto parsed = run_program(check);
    if (parsed.exit_code == 127) {
        MESSAGE("skipped: python3 is not here");
        return;
    }
    CAPTURE(parsed.err);
    CHECK(parsed.exit_code == 0);
}

TEST_CASE("a browser runs no script of a hostile name and sends no request for it") {
    if (!std::filesystem::exists(chromium)) {
        MESSAGE("skipped: chromium is not here");
        return;
    }
    const Ear ear;
    const std::vector<std::string> names = sample::two_hundred_hostile_names(ear.url());
    StudentReport report = sample::unmeasured_student();
    report.name = names[1];
    report.lessons.clear();
    for (std::size_t i = 0; i < names.size(); i += 2)
        report.lessons.push_back(
            {static_cast<std::int64_t>(i), names[i], names[i], names[i], {}, names[i + 1]});
    report.advice.clear();
    for (const std::string& name : names) report.advice.push_back({PracticeRule::number_old, name});
    const ScratchFolder folder;
    write_file(folder / "r.html", student_html(report));
    const auto shown =
        run_program({chromium, "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
                     "--user-data-dir=" + (folder / "profile"), "--virtual-time-budget=2000", "--dump-dom",
                     "file://" + (folder / "r.html")});
    if (shown.exit_code != 0 || !has(shown.out, "<h1")) {
        MESSAGE("skipped: chromium does not start here");
        return;
    }
    CHECK(has(shown.out, "What to practise"));
    CHECK_FALSE(has(shown.out, "<title>owned"));
    CHECK_FALSE(has(shown.out, "<script"));
    CHECK_FALSE(has(shown.out, "<iframe"));
    CHECK_FALSE(has(shown.out, "<img"));
    CHECK(ear.calls() == 0);
}
