using System.Globalization;
using System.Text.Json;

namespace ScheduleOpt.Reference.Tests;

/// <summary>Seeded random requests from tests/reference/random_requests.py.</summary>
internal static class RandomRequests
{
    /// <summary>The seed with which tests/reference/README.md states how often each mutant is told from the truth.</summary>
    public const int Seed = 1;

    /// <summary>How many requests are compared: 200, or what SCHEDULEOPT_REFERENCE_COUNT says.</summary>
    public static int Count =>
        int.TryParse(Environment.GetEnvironmentVariable("SCHEDULEOPT_REFERENCE_COUNT"), NumberStyles.None, CultureInfo.InvariantCulture, out var count)
            ? count
            : 200;

    /// <summary>The requests, one JSON document each; skips the test where Python is missing.</summary>
    public static IReadOnlyList<string> MakeOrSkip(int count)
    {
        var text = count.ToString(CultureInfo.InvariantCulture);
        var seed = Seed.ToString(CultureInfo.InvariantCulture);
        var (exitCode, output, error) = PythonReference.Run(
            PythonReference.InterpreterOrSkip(), "random_requests.py", "--seed", seed, "--count", text);
        Assert.True(exitCode == 0, error);
        return output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
    }

    /// <summary>Whether single shortfalls are unique: where the least total is asked for only their sums are.</summary>
    public static bool AsksForTimeOrder(string requestJson)
    {
        using var document = JsonDocument.Parse(requestJson);
        return !document.RootElement.TryGetProperty("options", out var options)
            || !options.TryGetProperty("shortfallOrder", out var order)
            || order.GetString() == "inTimeOrder";
    }
}
