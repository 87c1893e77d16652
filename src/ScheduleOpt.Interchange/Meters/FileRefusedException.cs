namespace ScheduleOpt.Interchange.Meters;

/// <summary>Stops the reading of a file at a fault after which nothing sensible follows; never leaves this folder.</summary>
internal sealed class FileRefusedException(Fault fault) : Exception(fault.ToString())
{
    public Fault Fault { get; } = fault;
}
