using System.Globalization;
using System.Text.Json;

namespace ScheduleOpt.Reference.Tests;

/// <summary>Seeded random requests from tests/reference/random_requests.py and random_houses.py.</summary>
internal static class RandomRequests
{
    /// <summary>The seed with which tests/reference/README.md states how often each mutant is told from the truth.</summary>
    public const int Seed = 1;

    /// <summary>How many houses each mutant is looked for in: all kinds of them five times.</summary>
    public const int HousesPerMutant = 105;

    /// <summary>How many requests are compared: 200, or what SCHEDULEOPT_REFERENCE_COUNT says.</summary>
    public static int Count => FromEnvironment("SCHEDULEOPT_REFERENCE_COUNT", 200);

    /// <summary>How many houses are compared: 147, all kinds seven times, or what SCHEDULEOPT_REFERENCE_HOUSES says.</summary>
    public static int HouseCount => FromEnvironment("SCHEDULEOPT_REFERENCE_HOUSES", 147);

    /// <summary>The requests, one JSON document each; skips the test where Python is missing.</summary>
    public static IReadOnlyList<string> MakeOrSkip(int count) => Make("random_requests.py", count);

    /// <summary>Requests for whole houses; skips the test where Python is missing.</summary>
    public static IReadOnlyList<string> MakeHousesOrSkip(int count) => Make("random_houses.py", count);

    private static int FromEnvironment(string name, int otherwise) =>
        int.TryParse(Environment.GetEnvironmentVariable(name), NumberStyles.None, CultureInfo.InvariantCulture, out var count) ? count : otherwise;

    private static string[] Make(string script, int count)
    {
        var text = count.ToString(CultureInfo.InvariantCulture);
        var seed = Seed.ToString(CultureInfo.InvariantCulture);
        var (exitCode, output, error) = PythonReference.Run(
            PythonReference.InterpreterOrSkip(), script, "--seed", seed, "--count", text);
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
