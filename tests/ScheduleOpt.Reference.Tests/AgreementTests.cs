namespace ScheduleOpt.Reference.Tests;

/// <summary>The comparison itself: it must be able to fail.</summary>
public sealed class AgreementTests
{
    private static readonly ReferenceAnswer Reference = new(null, 4, [0, 2], [1, 0], 3, -8);

    [Fact]
    public void Difference_SameNumbers_None() =>
        Assert.Null(Agreement.Difference(new([0, 2], [1, 0], 3, -8), Reference, inTimeOrder: true));

    [Fact]
    public void Difference_OtherCostSameObjective_None() =>
        Assert.Null(Agreement.Difference(new([0, 2], [1, 0], 5, -8), Reference, inTimeOrder: true));

    [Fact]
    public void Difference_ObjectiveOffByTwiceTheTolerance_IsFound() =>
        Assert.Contains("objective", Agreement.Difference(new([0, 2], [1, 0], 3, -8 + 1.6e-5), Reference, inTimeOrder: true), StringComparison.Ordinal);

    [Fact]
    public void Difference_ShortfallsSwapped_CountInTimeOrderOnly()
    {
        var swapped = new EngineAnswer([2, 0], [1, 0], 3, -8);
        Assert.NotNull(Agreement.Difference(swapped, Reference, inTimeOrder: true));
        Assert.Null(Agreement.Difference(swapped, Reference, inTimeOrder: false));
    }

    [Fact]
    public void Difference_NotANumber_IsFound() =>
        Assert.NotNull(Agreement.Difference(new([0, 2], [1, 0], 3, double.NaN), Reference, inTimeOrder: true));

    [Fact]
    public void Difference_ReferenceFailed_IsFound() =>
        Assert.NotNull(Agreement.Difference(new([0, 2], [1, 0], 3, -8), Reference with { Error = "infeasible" }, inTimeOrder: true));
}
