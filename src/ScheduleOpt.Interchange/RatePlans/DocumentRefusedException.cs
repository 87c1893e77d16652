namespace ScheduleOpt.Interchange.RatePlans;

/// <summary>Stops the parsing of a text at its first fault of form; never leaves this folder.</summary>
internal sealed class DocumentRefusedException(Fault fault) : Exception(fault.ToString())
{
    public Fault Fault { get; } = fault;
}
