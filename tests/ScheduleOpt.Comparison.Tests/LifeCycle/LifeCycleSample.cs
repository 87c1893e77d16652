using NodaTime;
using ScheduleOpt.Comparison.LifeCycle;

namespace ScheduleOpt.Comparison.Tests.LifeCycle;

/// <summary>Small alternatives that the tests share.</summary>
internal static class LifeCycleSample
{
    public static readonly LocalDate Base = new(2026, 7, 1);

    public static StudyPeriod Years(int years) => new(Base, years);

    public static LifeCycleAlternative Energy(string name, decimal perYear, decimal investment = 0) => new()
    {
        Name = name,
        Investment = investment == 0 ? [] : [new InvestmentLine("unit and wiring", investment)],
        Energy = [new EnergyLine("bill", perYear, EnergyPricePath.Constant)],
    };

    public static LifeCycleResult Against(LifeCycleAlternative reference, LifeCycleAlternative alternative, int years, DiscountRate rate)
    {
        var comparison = LifeCycleComparison.Of(
            [reference, alternative], reference.Name, new LifeCycleTerms { Study = Years(years), Rate = rate });
        return comparison.AtDiscountRate[1];
    }
}
