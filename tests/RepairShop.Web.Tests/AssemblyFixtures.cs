using RepairShop.Testing;
using Xunit;

[assembly: AssemblyFixture(typeof(PostgresServer))]
