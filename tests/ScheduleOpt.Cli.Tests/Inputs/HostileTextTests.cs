using ScheduleOpt.Cli.Inputs;

namespace ScheduleOpt.Cli.Tests.Inputs;

public sealed class HostileTextTests
{
    private static readonly string[] Texts =
    [
        "", " ", "-", "--", "0", "-0", "-1", "1e400", "1e-300", "1e28", "NaN", "Infinity", "0x10", "1,5", "²", "½", "%", "%%", "-5%", "C", "F", "°C",
        "-C", "1e9F", "V/A", "/", "240V/", "240V/40A/", "240V/40A//", "240V/40A/nec/nec", "99999999999999999999V/1A", "@file", "../..", "\0", "a\0b",
        "\u0007", "\ud800", "null", "{}", "[]", "\"", "0001-01-01T00:00", "9999-12-31T23:59", "2026-02-30T00:00", "2026-01-14T25:00",
        "2026-01-14T17:45:00.5-06:00", "America/", "UTC+25", "2026-01-14T17:45Z[Mars/Olympus]",
    ];

    public static TheoryData<string> Options =>
        [.. new ScheduleSettings(TextReader.Null).All.Concat(new RunningSettings(TextReader.Null).All).Select(s => s.Option.Name)];

    [Theory]
    [MemberData(nameof(Options))]
    public async Task Schedule_HostileTextInAnOption_IsAnsweredOrRefusedUnderItsName(string option)
    {
        foreach (var text in Texts)
        {
            var run = await CommandRun.Of("schedule", "--demo", $"{option}={text}");

            Assert.True(run.Code is 0 or 1, $"{option}={text}: {run.Code} {run.Error}");
            Assert.Equal(run.Code == 1, run.Error.Contains(text == "-" ? "standard input" : option, StringComparison.Ordinal)
                || run.Error.Contains(option, StringComparison.Ordinal));
        }
    }
}
