using CsCheck;
using NodaTime;
using ScheduleOpt.Core.Time;

namespace ScheduleOpt.Core.Tests.Time;

public sealed class IntervalGridTests
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 1, 14, 12, 0);
    private static readonly Duration Quarter = Duration.FromMinutes(15);

    [Fact]
    public void Cut_OddStart_FallsIntoStepOfTheClock() =>
        Assert.Equal(
            [Minute(7), Minute(15), Minute(30), Minute(40)],
            IntervalGrid.Cut(Minute(7), Minute(40), Quarter, []));

    [Fact]
    public void Cut_FurtherInstants_StandOnceEach() =>
        Assert.Equal(
            [Minute(0), Minute(10), Minute(15), Minute(20), Minute(30)],
            IntervalGrid.Cut(Minute(0), Minute(30), Quarter, [Minute(20), Minute(15), Minute(10), Minute(20), Minute(0), Minute(30), Minute(45)]));

    [Fact]
    public void Cut_StartAndEndOnTheGrid_AreNotRepeated() =>
        Assert.Equal([Minute(15), Minute(30)], IntervalGrid.Cut(Minute(15), Minute(30), Quarter, []));

    [Fact]
    public void Cut_BeforeTheEpoch_FallsOnTheSameGrid()
    {
        var start = Instant.FromUtc(1969, 12, 31, 23, 50);

        Assert.Equal([start, Instant.FromUnixTimeSeconds(0), Instant.FromUtc(1970, 1, 1, 0, 5)], IntervalGrid.Cut(start, start + Quarter, Quarter, []));
    }

    [Fact]
    public void Cut_AnySpan_IsInOrderAndHoldsEveryCut() =>
        Gen.Select(Gen.Int[0, 5_000], Gen.Int[1, 5_000], Gen.Int[0, 3].Select(i => IntervalGrid.StepsInMinutes[i]), Gen.Int[-100, 12_000].Array[0, 40]).Sample((first, length, step, cuts) =>
        {
            var (start, end) = (Minute(first), Minute(first + length));
            var grid = IntervalGrid.Cut(start, end, Duration.FromMinutes(step), cuts.Select(Minute));

            Assert.Equal((start, end), (grid[0], grid[^1]));
            Assert.All(grid.Zip(grid.Skip(1)), pair => Assert.True(pair.First < pair.Second && pair.Second - pair.First <= Duration.FromMinutes(step)));
            Assert.All(cuts.Select(Minute).Where(c => c > start && c < end), cut => Assert.Contains(cut, grid));
        });

    [Fact]
    public void Cut_EmptySpan_IsRefused() => Assert.Throws<ArgumentOutOfRangeException>(() => IntervalGrid.Cut(Noon, Noon, Quarter, []));

    private static Instant Minute(int minutes) => Noon + Duration.FromMinutes(minutes);
}
