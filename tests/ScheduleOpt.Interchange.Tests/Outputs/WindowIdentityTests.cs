using System.Text.Json.Nodes;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Tests.Requests;

namespace ScheduleOpt.Interchange.Tests.Outputs;

public sealed class WindowIdentityTests
{
    [Fact]
    public void Uid_OfTheSameStay_DoesNotDependOnContentOrOnWhatIsPast()
    {
        var evening = Uids(Answers.With(RequestText.Schedule(), [(4, 5, 32)], [(8, 9, 32)]));
        var dearer = Uids(Answers.With(RequestText.Schedule(), [(4.5, 5.5, 16)], [(7, 9.5, 32)]));
        var later = Uids(Answers.With(RequestText.Schedule(), [(8, 9, 32)]));

        Assert.Equal(evening, dearer);
        Assert.Equal(evening[1], Assert.Single(later));
        Assert.Equal(2, evening.Distinct().Count());
    }

    [Fact]
    public void Uid_OfAnotherStayOrAnotherCar_IsAnother()
    {
        var stays = Uids(Answers.With(RequestText.Schedule(), [(8, 9, 32)], [(30, 31, 32)]));
        Assert.Contains("-20260115T0730-", stays[0], StringComparison.Ordinal);
        Assert.Contains("-open-", stays[1], StringComparison.Ordinal);

        // Names that share their plain letters.
        var names = new[] { "Blue", "blue", "Blué", "青" };
        var uids = names.Select(n => Uids(Answers.With(Requests.Households.HouseholdText.TwoCars().Set("cars/0/name", $"\"{n}\"").Set("cars/0/previous", "{\"windows\":[]}"), [(8, 9, 32)]))[0]);
        Assert.Equal(names.Length, uids.Distinct().Count());
    }

    [Theory]
    [InlineData(8, 9, 32, 3)] // Nothing changed.
    [InlineData(8, 9.5, 32, 4)] // The end did.
    [InlineData(8, 9, 16, 4)] // The current did.
    [InlineData(6, 7, 32, 4)] // Moved within the stay, no overlap.
    public void Sequence_AgainstAnEarlierAnswer_RisesWhereTheWindowChanged(double from, double until, double current, int expected)
    {
        var first = Answers.With(RequestText.Schedule(), [(8, 9, 32)]).Cars[0].Windows[0];
        var again = Answers.With(After(first, 3), [(from, until, current)]).Cars[0];

        Assert.Equal((first.Uid, expected), (again.Windows[0].Uid, again.Windows[0].Sequence));
        Assert.Empty(again.Withdrawn);
    }

    [Fact]
    public void Window_AddedBeforeAnother_TakesNeitherItsNameNorThatOfAWithdrawnOne()
    {
        var first = Answers.With(RequestText.Schedule(), [(8, 9, 32)]).Cars[0].Windows[0];
        var again = Answers.With(After(first, 0), [(5, 5.5, 32)], [(8.5, 9, 32)]).Cars[0].Windows;

        Assert.Equal(first.Uid, again[1].Uid);
        Assert.Equal(1, again[1].Sequence);
        Assert.NotEqual(first.Uid, again[0].Uid);
        Assert.Equal(0, again[0].Sequence);
    }

    [Fact]
    public void Names_OfRandomReplans_AreUniqueAndFollowedThroughTheirOverlaps()
    {
        var random = new Random(20260114);
        for (var i = 0; i < 60; i++)
        {
            var first = Answers.With(RequestText.Schedule(), Draw(random)).Cars[0].Windows;
            var again = Answers.With(After([.. first.Select(w => Window(w, w.Sequence))]), Draw(random)).Cars[0];
            var all = again.Windows.Select(w => w.Uid).Concat(again.Withdrawn.Select(w => w.Uid!)).ToArray();

            Assert.Equal(all.Length, all.Distinct().Count());
            Assert.All(first, w => Assert.Contains(w.Uid, all));
            Assert.All(again.Windows, w => Assert.True(w.Sequence is 0 or 1));
        }
    }

    private static (double, double, double)[][] Draw(Random random)
    {
        var windows = new List<(double, double, double)[]>();
        for (var at = random.Next(0, 6) / 2.0; at < 40; at += 1 + (random.Next(0, 16) / 2.0))
        {
            var end = at + 0.5 + (random.Next(0, 3) / 2.0);
            if (end < 13.5 || at > 25)
            {
                windows.Add([(at, end, 32)]);
            }

            at = end;
        }

        return [.. windows];
    }

    private static JsonObject After(WindowAnswer window, int sequence) => After([Window(window, sequence)]);

    private static JsonObject After(JsonNode[] windows) => RequestText.Schedule().Set(
        "options", new JsonObject { ["previous"] = new JsonObject { ["windows"] = new JsonArray(windows) } }.ToJsonString());

    private static JsonObject Window(WindowAnswer window, int sequence) => new()
    {
        ["start"] = window.Start.ToString(),
        ["end"] = window.End.ToString(),
        ["currentA"] = window.CurrentA,
        ["uid"] = window.Uid,
        ["sequence"] = sequence,
    };

    private static string[] Uids(ScheduleAnswer answer) => [.. answer.Cars[0].Windows.Select(w => w.Uid)];
}
