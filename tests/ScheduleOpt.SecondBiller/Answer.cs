using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>A line of a statement, as far as the comparison needs it.</summary>
public sealed record Line(string Part, string Name, decimal Amount, string? Layer = null, bool IsPercentage = false);

/// <summary>One billing period.</summary>
public sealed record Statement(Instant Start, Instant End, IReadOnlyList<Line> Lines)
{
    public decimal Total => Lines.Sum(line => line.Amount);

    public decimal Of(string part) => Lines.Where(line => line.Part == part).Sum(line => line.Amount);
}

/// <summary>The bill and what the next one must know.</summary>
public sealed record Answer(IReadOnlyList<Statement> Statements, Carried Carried)
{
    public decimal Total => Statements.Sum(statement => statement.Total);
}

/// <summary>"no bill": the rules refuse this question.</summary>
public sealed class RefusedException(string message) : Exception(message);

/// <summary>Parts of a bill, in the schema's words.</summary>
public static class Parts
{
    public const string CustomerCharge = "customerCharge";
    public const string EnergyCharge = "energyCharge";
    public const string DemandCharge = "demandCharge";
    public const string Adjustment = "adjustment";
    public const string Credit = "credit";
    public const string ExportCredit = "exportCredit";
    public const string MinimumBill = "minimumBill";
    public const string Tax = "tax";
    public const string Rounding = "rounding";
}
